//! A picture for the camera input, made without a camera.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::json;

use super::driver::Driver;
use super::tablet::Tablet;

/// A picture of one bit a pixel, which any browser reads.
pub fn picture(folder: &Path, width: u32, height: u32) -> PathBuf {
    let row_bytes = width.div_ceil(32) * 4;
    let mut bytes = Vec::new();
    let (head, data) = (62_u32, row_bytes * height);
    bytes.extend(b"BM");
    for number in [
        head + data,
        0,
        head,
        40,
        width,
        height,
        1 | 1 << 16,
        0,
        data,
    ] {
        bytes.extend(number.to_le_bytes());
    }
    for number in [2_835_u32, 2_835, 2, 2, 0, 0x00ff_ffff] {
        bytes.extend(number.to_le_bytes());
    }
    bytes.extend(vec![0b1010_0101_u8; data as usize]);
    let file = folder.join("crack.bmp");
    fs::write(&file, bytes).expect("the folder can be written to");
    file
}

/// Gives it to the line that is open, as the camera would.
pub fn give_photo(tablet: &Tablet, file: &Path) {
    let input = tablet.run(
        r#"return document.querySelector("[data-testid=photo-input]")"#,
        &json!([]),
    );
    let input = Driver::element(&input).expect("there is an input for photos");
    tablet
        .driver()
        .send_keys(&input, &file.display().to_string());
}
