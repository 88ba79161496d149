//! `cargo xtask shots`: a picture of every screen and every kind of ask, and sheets of them to look through.
//!
//! It judges nothing: it is for eyes. What can be measured is a test.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::path::{Path, PathBuf};

use serde_json::json;
use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::tablet::Tablet;
use tests::browser::tour;

/// Name, width, height, glove, theme. The first two show everything, the others each kind of screen once.
const WAYS: [(&str, u32, u32, &str, &str); 8] = [
    ("landscape-light-thin", 1280, 800, "thin", "light"),
    ("portrait-light-thin", 800, 1280, "thin", "light"),
    ("landscape-light-heavy", 1280, 800, "heavy", "light"),
    ("portrait-light-heavy", 800, 1280, "heavy", "light"),
    ("landscape-dark-thin", 1280, 800, "thin", "dark"),
    ("portrait-dark-thin", 800, 1280, "thin", "dark"),
    ("landscape-dark-heavy", 1280, 800, "heavy", "dark"),
    ("portrait-dark-heavy", 800, 1280, "heavy", "dark"),
];
const SHOW_ALL: usize = 2;
const SHEET_WIDTH: u32 = 2_400;

fn main() {
    let folder = dist().with_file_name("shots");
    let _none_yet = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder for the pictures can be made");
    let host = Host::start(&dist());
    let tablet = Tablet::new("shots", &host.address());
    let mut taken: BTreeMap<&str, Vec<(String, PathBuf)>> = BTreeMap::new();
    let mut count = 0;
    // Should the tour get stuck, what was seen until then is shown all the same.
    let toured = catch_unwind(AssertUnwindSafe(|| {
        tour::all(&tablet, &mut |tablet, seen| {
            count += 1;
            let ways = if seen.new_kind {
                &WAYS[..]
            } else {
                &WAYS[..SHOW_ALL]
            };
            for (way, width, height, glove, theme) in ways {
                tablet.look_like(*width, *height, glove, theme);
                let plain: String = seen
                    .name
                    .chars()
                    .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' })
                    .collect();
                let file = folder.join(format!("{way}-{count:03}-{plain}.png"));
                fs::write(&file, tablet.driver().picture(false)).expect("a picture can be written");
                taken
                    .entry(way)
                    .or_default()
                    .push((format!("{count} {}", seen.name), file));
            }
            tablet.look_like(1280, 800, "thin", "light");
        })
    }));
    for (way, shots) in &taken {
        let (columns, rows) = if way.starts_with("landscape") {
            (5, 8)
        } else {
            (8, 4)
        };
        for (n, shots) in shots.chunks(columns * rows).enumerate() {
            sheet(
                &tablet,
                &folder,
                &format!("sheet-{way}-{}", n + 1),
                columns,
                shots,
            );
        }
    }
    eprintln!(
        "{count} screens; pictures and sheets in {}",
        folder.display()
    );
    if let Err(stuck) = toured {
        resume_unwind(stuck);
    }
}

/// One big picture of many, each with its name below.
fn sheet(tablet: &Tablet, folder: &Path, name: &str, columns: usize, shots: &[(String, PathBuf)]) {
    let mut page = format!(
        "<!doctype html><meta charset=utf-8><title>{name}</title><style>\
         body{{margin:8px;display:grid;grid-template-columns:repeat({columns},1fr);gap:8px;font:18px sans-serif}}\
         figure{{margin:0}}img{{width:100%;border:1px solid}}</style>"
    );
    for (label, file) in shots {
        let file = file
            .file_name()
            .and_then(|file| file.to_str())
            .unwrap_or_default();
        let _always = write!(
            page,
            "<figure><img src=\"{file}\"><figcaption>{label}</figcaption></figure>"
        );
    }
    let html = folder.join(format!("{name}.html"));
    fs::write(&html, page).expect("a sheet can be written");
    let driver = tablet.driver();
    driver.view(SHEET_WIDTH, 1_000);
    driver.open(&format!("file://{}", html.display()));
    let drawn = "return [...document.images].every((image) => image.complete)";
    tablet.wait("the sheet is drawn", || {
        driver.run(drawn, &json!([])) == true
    });
    fs::write(folder.join(format!("{name}.png")), driver.picture(true))
        .expect("a sheet can be written");
}
