use super::{BYTES_MAX, CardFileFault, MARK, Photos, read, write};
use crate::bay::Bay;
use crate::event::Role;
use crate::line::{Line, LineFault, Sha};
use crate::trail::{Trail, TrailFault};
use crate::words::Words;

fn bay() -> Bay {
    let mut bay = Bay::open();
    bay.chocked();
    bay
}

fn lines_only(trail: &Trail) -> String {
    write(trail, &Photos::new()).text
}

/// A file around these lines, with a right last line.
fn sealed(card: &str, lines: &[&str]) -> String {
    let mut text = format!("{MARK}1\ncard {card}\n");
    for line in lines {
        text.push_str(line);
        text.push('\n');
    }
    let sha = Sha::of(text.as_bytes());
    format!("{text}end {} {sha}\n", lines.len())
}

#[test]
fn a_card_comes_back_as_it_was() {
    let mut bay = bay();
    let mut other = bay.other_tablet("tablet-b");
    other.sign_on("bo", Role::Foreman);
    bay.trail.merge(&other.trail);
    let file = lines_only(&bay.trail);
    let (back, _) = read(file.as_bytes()).unwrap();
    assert_eq!(format!("{back:?}"), format!("{:?}", bay.trail));
    assert_eq!(lines_only(&back), file);
    let lines: Vec<&str> = bay.trail.all().map(Line::text).collect();
    assert_eq!(file, sealed("card-1", &lines));
}

#[test]
fn photos_travel_with_their_card() {
    let bay = bay();
    let photos: Photos = [b"one".to_vec(), vec![0, 255, 13, 10]]
        .into_iter()
        .map(|bytes| (Sha::of(&bytes), bytes))
        .collect();
    let file = write(&bay.trail, &photos);
    assert_eq!(file.left_out, 0);
    assert!(file.text.starts_with(&format!("{MARK}2\n")));
    let (trail, back) = read(file.text.as_bytes()).unwrap();
    assert_eq!(format!("{trail:?}"), format!("{:?}", bay.trail));
    assert_eq!(back, photos);

    // Bytes that are not those of their name, in a file that is otherwise as it was written.
    let swapped: Photos = [(Sha::of(b"one"), b"two".to_vec())].into();
    let file = write(&bay.trail, &swapped);
    assert_eq!(
        read(file.text.as_bytes()).unwrap_err(),
        CardFileFault::Changed
    );
}

#[test]
fn a_photo_without_room_is_counted_and_the_card_goes_all_the_same() {
    let bay = bay();
    let large = vec![7; BYTES_MAX / 4 * 3];
    let photos: Photos = [large, b"small".to_vec()]
        .into_iter()
        .map(|bytes| (Sha::of(&bytes), bytes))
        .collect();
    let file = write(&bay.trail, &photos);
    assert_eq!(file.left_out, 1);
    let (trail, back) = read(file.text.as_bytes()).unwrap();
    assert_eq!(trail.all().count(), bay.trail.all().count());
    assert_eq!(back.values().collect::<Vec<_>>(), [b"small"]);
}

#[test]
fn a_made_up_card_stays_one_in_its_file() {
    let mut trail = Trail::new(crate::id::CardId::of_practice("c1"));
    let bay = bay();
    let drafts = vec![crate::act::sign_on(&"ann".into(), "Ann", Role::Technician)];
    let at = bay.trail.all().next().unwrap().at;
    for line in trail.write(&"t1".into(), &"ann".into(), at, drafts) {
        trail.take_in(line);
    }
    let file = lines_only(&trail);
    assert!(read(file.as_bytes()).unwrap().0.card().is_practice());
    // With another name on it no line fits any more, and the last line doesn't either.
    let renamed = file.replacen("card practice-c1", "card c1", 1);
    assert_eq!(
        read(renamed.as_bytes()).unwrap_err(),
        CardFileFault::Changed
    );
    let lines: Vec<&str> = trail.all().map(Line::text).collect();
    let sealed = sealed("c1", &lines);
    let other = read(sealed.as_bytes()).unwrap_err();
    assert_eq!(other, CardFileFault::OtherCard { number: 3 });
}

#[test]
fn pairs_of_line_ends_are_tolerated() {
    let bay = bay();
    let file = lines_only(&bay.trail).replace('\n', "\r\n");
    let (back, _) = read(file.as_bytes()).unwrap();
    assert_eq!(format!("{back:?}"), format!("{:?}", bay.trail));
}

#[test]
fn a_fork_travels_with_its_card() {
    let mut bay = bay();
    let mut twin = bay.clone();
    twin.wait(1);
    twin.sign_on("bo", Role::Foreman);
    bay.sign_on("cy", Role::Foreman);
    bay.trail.merge(&twin.trail);
    assert!(matches!(&bay.trail.faults()[..], [TrailFault::Fork { .. }]));
    let (back, _) = read(lines_only(&bay.trail).as_bytes()).unwrap();
    assert_eq!(back.faults(), bay.trail.faults());
}

#[test]
fn every_damage_has_its_own_fault() {
    let bay = bay();
    let file = lines_only(&bay.trail);
    let lines: Vec<&str> = bay.trail.all().map(Line::text).collect();
    let mut other = Bay::empty();
    other.trail = Trail::new("card-2".into());
    other.sign_on("tess", Role::Technician);
    let stranger = other.trail.all().next().unwrap().text().to_owned();
    let newer = {
        let json = lines[0]
            .split_once(' ')
            .unwrap()
            .1
            .replace("\"f\":1", "\"f\":2");
        format!("{} {json}", Sha::of(json.as_bytes()))
    };
    let changed = lines[1].replace("tess", "bess");
    let gap: Vec<&str> = [lines[0], lines[2]].to_vec();
    let rows: Vec<(&str, Vec<u8>, CardFileFault, &str)> = vec![
        ("nothing", Vec::new(), CardFileFault::Empty, "file.empty"),
        (
            "blanks",
            b" \r\n\n".to_vec(),
            CardFileFault::Empty,
            "file.empty",
        ),
        (
            "another file",
            b"%PDF-1.7\n".to_vec(),
            CardFileFault::NotACardFile,
            "file.not-a-card",
        ),
        (
            "no text",
            vec![0xff, 0xd8, 0xff],
            CardFileFault::NotACardFile,
            "file.not-a-card",
        ),
        (
            "newer file",
            file.replacen("file 1", "file 3", 1).into_bytes(),
            CardFileFault::Newer { format: 3 },
            "file.newer",
        ),
        (
            "too large",
            vec![b'c'; BYTES_MAX + 1],
            CardFileFault::TooLarge {
                bytes: BYTES_MAX + 1,
            },
            "file.too-large",
        ),
        (
            "no last line",
            file[..file.rfind("end ").unwrap()].into(),
            CardFileFault::CutShort,
            "file.cut-short",
        ),
        (
            "a name changed",
            file.replacen("tess", "bess", 1).into_bytes(),
            CardFileFault::Changed,
            "file.changed",
        ),
        (
            "fewer lines than stated",
            sealed("card-1", &lines)
                .replace(&format!("end {} ", lines.len()), "end 2 ")
                .into_bytes(),
            CardFileFault::Changed,
            "file.changed",
        ),
        (
            "no lines",
            sealed("card-1", &[]).into_bytes(),
            CardFileFault::Changed,
            "file.changed",
        ),
        (
            "no card",
            format!("{MARK}1\n{}", "end 0 ").into_bytes(),
            CardFileFault::CutShort,
            "file.cut-short",
        ),
        (
            "a line of another card",
            sealed("card-1", &[lines[0], &stranger]).into_bytes(),
            CardFileFault::OtherCard { number: 4 },
            "file.line",
        ),
        (
            "a line is missing",
            sealed("card-1", &gap).into_bytes(),
            CardFileFault::Trail(TrailFault::Gap {
                tablet: "tablet-a".into(),
                n: 2,
            }),
            "file.trail",
        ),
        (
            "a newer line",
            sealed("card-1", &[&newer]).into_bytes(),
            CardFileFault::Line {
                number: 3,
                fault: LineFault::Newer { format: 2 },
            },
            "file.newer",
        ),
        (
            "no line at all",
            sealed("card-1", &[lines[0], "rubbish"]).into_bytes(),
            CardFileFault::Line {
                number: 4,
                fault: LineFault::NotALine,
            },
            "file.line",
        ),
    ];
    for (why, bytes, expected, key) in rows {
        let fault = read(&bytes).expect_err(why);
        assert_eq!(fault, expected, "{why}");
        assert_eq!(fault.words().key, key, "{why}");
        assert!(CardFileFault::KEYS.contains(&key), "{why}");
    }
    let inside = sealed("card-1", &[lines[0], &changed]);
    let fault = read(inside.as_bytes()).unwrap_err();
    assert!(
        matches!(
            fault,
            CardFileFault::Line {
                number: 4,
                fault: LineFault::Changed { .. }
            }
        ),
        "{fault}"
    );
    assert_eq!(
        fault.words(),
        Words::with(
            "file.line",
            [("number", crate::words::Arg::Text("4".to_owned()))]
        )
    );
}

#[test]
fn a_gap_behind_a_fork_is_still_a_gap() {
    let mut bay = bay();
    let mut twin = bay.clone();
    twin.wait(1);
    twin.sign_on("bo", Role::Foreman);
    bay.sign_on("cy", Role::Foreman);
    bay.trail.merge(&twin.trail);
    let mut other = bay.other_tablet("tablet-z");
    other.trail = Trail::new("card-1".into());
    other.sign_on("di", Role::Technician);
    other.sign_on("ed", Role::Technician);
    let last = other.trail.in_order()[1].clone();
    bay.trail.take_in(last);
    let fault = read(lines_only(&bay.trail).as_bytes()).unwrap_err();
    assert_eq!(
        fault,
        CardFileFault::Trail(TrailFault::Gap {
            tablet: "tablet-z".into(),
            n: 1
        })
    );
}

#[test]
fn cut_short_at_any_length_is_never_accepted() {
    let file = lines_only(&bay().trail);
    for length in 0..file.len() {
        assert!(read(&file.as_bytes()[..length]).is_err(), "{length}");
    }
    let pairs = file.replace('\n', "\r\n");
    for length in 0..pairs.len() {
        assert!(read(&pairs.as_bytes()[..length]).is_err(), "{length}");
    }
}

#[test]
fn one_changed_byte_is_never_accepted() {
    let bay = bay();
    let file = lines_only(&bay.trail).into_bytes();
    for at in 0..file.len() {
        for byte in [
            file[at] ^ 0x01,
            file[at] ^ 0x20,
            file[at] ^ 0x80,
            b'\n',
            b'\r',
            b' ',
            b'0',
        ] {
            if byte == file[at] {
                continue;
            }
            let mut changed = file.clone();
            changed[at] = byte;
            assert!(read(&changed).is_err(), "byte {at} to {byte}");
        }
    }
}
