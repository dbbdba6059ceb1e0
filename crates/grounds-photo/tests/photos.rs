//! Photos as phones send them, and files that are made to do harm.
//!
//! The files are made here, by the rules of their formats (published): JPEG, ITU-T T.81 annex B; PNG, W3C
//! Portable Network Graphics, third edition; Exif, CIPA DC-008, of which only the orientation counts.

#![allow(
    clippy::unwrap_used,
    reason = "the test fails where something is not as it should be"
)]

use std::io::Cursor;

use grounds_photo::{LONGEST_BYTES, LONGEST_WHOLE, Refused, kept, look, ready};
use image::{DynamicImage, ImageFormat, Rgb, RgbImage, RgbaImage};

/// A picture that is red on the left and blue on the right, with a gradient so that it is not flat.
fn two_halves(width: u32, height: u32) -> DynamicImage {
    RgbImage::from_fn(width, height, |x, y| {
        let shade = u8::try_from(y * 100 / height).unwrap();
        if x < width / 2 {
            Rgb([250, shade, 20])
        } else {
            Rgb([20, shade, 250])
        }
    })
    .into()
}

fn file(picture: &DynamicImage, format: ImageFormat) -> Vec<u8> {
    let mut out = Cursor::new(Vec::new());
    picture.write_to(&mut out, format).unwrap();
    out.into_inner()
}

/// An Exif segment that says how the camera was held, and carries a place in plain sight.
fn exif(orientation: u8) -> Vec<u8> {
    let mut tags = b"Exif\0\0MM\0\x2a\0\0\0\x08\0\x02".to_vec();
    // 0x0112 orientation, a short; 0x010f maker, text behind the tags.
    tags.extend([0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0]);
    tags.extend([0x01, 0x0f, 0, 2, 0, 0, 0, 12, 0, 0, 0, 38]);
    tags.extend([0, 0, 0, 0]);
    tags.extend(b"GPS 52N 002W");
    let length = u16::try_from(tags.len() + 2).unwrap().to_be_bytes();
    [&[0xff, 0xe1], &length[..], &tags].concat()
}

fn comment(text: &[u8]) -> Vec<u8> {
    let length = u16::try_from(text.len() + 2).unwrap().to_be_bytes();
    [&[0xff, 0xfe], &length[..], text].concat()
}

/// A JPEG with a segment behind its start.
fn with_segment(jpeg: &[u8], segment: &[u8]) -> Vec<u8> {
    [&jpeg[..2], segment, &jpeg[2..]].concat()
}

fn holds(bytes: &[u8], text: &[u8]) -> bool {
    bytes.windows(text.len()).any(|part| part == text)
}

fn opened(bytes: &[u8]) -> RgbImage {
    image::load_from_memory_with_format(bytes, ImageFormat::Jpeg)
        .unwrap()
        .into_rgb8()
}

/// CRC-32 of a PNG chunk, bit by bit.
fn crc(bytes: &[u8]) -> [u8; 4] {
    let mut crc = u32::MAX;
    for byte in bytes {
        crc ^= u32::from(*byte);
        for _ in 0..8 {
            crc = if crc & 1 == 1 {
                (crc >> 1) ^ 0xedb8_8320
            } else {
                crc >> 1
            };
        }
    }
    (!crc).to_be_bytes()
}

fn chunk(kind: &[u8; 4], inside: &[u8]) -> Vec<u8> {
    let length = u32::try_from(inside.len()).unwrap().to_be_bytes();
    let named = [kind.as_slice(), inside].concat();
    [&length[..], &named, &crc(&named)].concat()
}

/// The head of a PNG of that size, and next to no picture.
fn png_head(width: u32, height: u32) -> Vec<u8> {
    let mut head = [width.to_be_bytes(), height.to_be_bytes()].concat();
    head.extend([8, 2, 0, 0, 0]);
    let data = [0x78, 0x9c, 0x63, 0, 0];
    [
        b"\x89PNG\r\n\x1a\n".to_vec(),
        chunk(b"IHDR", &head),
        chunk(b"IDAT", &data),
        chunk(b"IEND", &[]),
    ]
    .concat()
}

#[test]
fn every_kind_that_is_taken_comes_out_as_a_jpeg_of_our_own() {
    let picture = two_halves(60, 40);
    for format in [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP] {
        let photo = ready(&file(&picture, format)).unwrap();
        assert_eq!((photo.width, photo.height), (60, 40), "{format:?}");
        let whole = opened(&photo.whole);
        assert!(whole.get_pixel(5, 20).0[0] > 200, "{format:?}");
        assert!(whole.get_pixel(55, 20).0[2] > 200, "{format:?}");
        assert!(!look(&photo.whole).unwrap().has_tags);
    }
}

#[test]
fn a_large_photo_is_made_smaller_and_keeps_its_shape() {
    let photo = ready(&file(&two_halves(5_000, 2_500), ImageFormat::Jpeg)).unwrap();
    assert_eq!((photo.width, photo.height), (LONGEST_WHOLE, 1_024));
    assert_eq!(opened(&photo.whole).dimensions(), (2_048, 1_024));
    assert_eq!(opened(&photo.small).dimensions(), (320, 160));
    assert!(photo.small.len() < photo.whole.len());
}

#[test]
fn a_photo_stands_upright_and_says_nothing_of_where_it_was_taken() {
    // Orientation 6: the camera was turned; shown upright, what was left is on top.
    let tagged = with_segment(&file(&two_halves(60, 40), ImageFormat::Jpeg), &exif(6));
    assert!(holds(&tagged, b"GPS 52N") && look(&tagged).unwrap().has_tags);
    let photo = ready(&tagged).unwrap();
    assert_eq!((photo.width, photo.height), (40, 60));
    let whole = opened(&photo.whole);
    assert!(whole.get_pixel(20, 5).0[0] > 200, "red on top");
    assert!(whole.get_pixel(20, 55).0[2] > 200, "blue below");
    for bytes in [&photo.whole, &photo.small] {
        assert!(!holds(bytes, b"GPS") && !holds(bytes, b"Exif"));
    }
}

#[test]
fn a_photo_that_is_a_page_as_well_loses_the_page() {
    let page = b"<!doctype html><script>alert(1)</script>";
    let both = with_segment(
        &file(&two_halves(60, 40), ImageFormat::Jpeg),
        &comment(page),
    );
    let behind = [both, page.to_vec()].concat();
    let photo = ready(&behind).unwrap();
    assert!(!holds(&photo.whole, b"<script") && !holds(&photo.small, b"<script"));
    let before = [page.to_vec(), file(&two_halves(6, 4), ImageFormat::Jpeg)].concat();
    assert!(matches!(
        ready(&before),
        Err(Refused::OtherKind { what: "a text", .. })
    ));
}

#[test]
fn a_small_file_that_would_fill_the_memory_is_refused_by_its_header() {
    for (width, height) in [(60_000, 60_000), (21_000, 10), (8_000, 7_501)] {
        let refused = ready(&png_head(width, height)).unwrap_err();
        assert_eq!(refused, Refused::TooLarge { width, height });
    }
    // The height and width of the frame header of a small JPEG, written over.
    let mut bomb = file(&two_halves(16, 16), ImageFormat::Jpeg);
    let frame = bomb
        .windows(2)
        .position(|pair| pair == [0xff, 0xc0])
        .unwrap();
    bomb[frame + 5..frame + 9].copy_from_slice(&[0xff, 0xdc, 0xff, 0xdc]);
    assert!(matches!(ready(&bomb), Err(Refused::TooLarge { .. })));
    // Within what is drawn, but far more than its data can hold.
    bomb[frame + 5..frame + 9].copy_from_slice(&[0x17, 0x70, 0x17, 0x70]);
    let (width, height) = (6_000, 6_000);
    assert_eq!(ready(&bomb), Err(Refused::Lies { width, height }));
}

#[test]
fn a_photo_that_is_drawn_in_ever_more_steps_is_refused() {
    let photo = file(&two_halves(16, 16), ImageFormat::Jpeg);
    let scan = photo
        .windows(2)
        .position(|pair| pair == [0xff, 0xda])
        .unwrap();
    let end = photo.len() - 2;
    let steps = photo[scan..end].repeat(40);
    let many = [&photo[..scan], &steps, &photo[end..]].concat();
    assert!(matches!(ready(&many), Err(Refused::Broken { why }) if why.contains("steps")));
}

#[test]
fn half_a_photo_is_refused() {
    for format in [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP] {
        let whole = file(&two_halves(200, 150), format);
        for part in [whole.len() / 4, whole.len() / 2, whole.len() - 14] {
            assert!(ready(&whole[..part]).is_err(), "{format:?} cut at {part}");
        }
    }
    let jpeg = file(&two_halves(200, 150), ImageFormat::Jpeg);
    assert_eq!(ready(&jpeg[..jpeg.len() / 2]), Err(Refused::CutShort));
}

#[test]
fn what_is_no_still_picture_is_refused_with_its_name() {
    let said = |bytes: &[u8]| ready(bytes).unwrap_err().to_string();
    assert!(said(b"").contains("empty"));
    assert!(said(b"GIF89a").contains("GIF"));
    assert!(said(b"%PDF-1.7").contains("PDF"));
    assert!(said(b"\0\0\0\x18ftypheic").contains("photos as JPEG"));
    assert!(said(b"\0\0\0\x18ftypisom").contains("film"));
    assert!(said(b"<svg onload=alert(1)>").contains("a text"));
    assert!(said(&[7; 100]).contains("no picture"));
    let long = vec![0xff; LONGEST_BYTES + 1];
    assert_eq!(ready(&long), Err(Refused::TooLong));
}

#[test]
fn a_picture_that_moves_is_refused() {
    let still = file(&two_halves(16, 16), ImageFormat::Png);
    // Behind the header of 33 bytes: two frames, played for ever.
    let moves = chunk(b"acTL", &[0, 0, 0, 2, 0, 0, 0, 0]);
    let moving = [&still[..33], &moves, &still[33..]].concat();
    assert_eq!(ready(&moving), Err(Refused::Moves));
}

#[test]
fn what_can_be_seen_through_is_laid_on_white() {
    let clear = DynamicImage::from(RgbaImage::from_pixel(20, 20, image::Rgba([9, 9, 9, 0])));
    let photo = ready(&file(&clear, ImageFormat::Png)).unwrap();
    assert!(
        opened(&photo.whole)
            .get_pixel(10, 10)
            .0
            .iter()
            .all(|part| *part > 250)
    );
}

#[test]
fn a_photo_that_was_made_here_stays_the_same_byte_for_byte() {
    let made = ready(&file(&two_halves(300, 200), ImageFormat::Png)).unwrap();
    let again = kept(&made.whole).unwrap();
    assert!(again.whole == made.whole, "the bytes differ");
    assert_eq!((again.width, again.height), (300, 200));
    assert_eq!(opened(&again.small).dimensions(), (300, 200));
    // One that was not is drawn anew.
    let tagged = with_segment(&made.whole, &exif(1));
    let drawn = kept(&tagged).unwrap();
    assert!(!holds(&drawn.whole, b"GPS"));
}

#[test]
fn no_broken_picture_breaks_the_program() {
    // Bytes turned over here and there, in a fixed order (xorshift64).
    let mut state = 0x2545_f491_4f6c_dd1d_u64;
    let mut next = move || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        state
    };
    for format in [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP] {
        let sound = file(&two_halves(40, 30), format);
        for _ in 0..300 {
            let mut bytes = sound.clone();
            for _ in 0..1 + next() % 8 {
                let at = usize::try_from(next()).unwrap() % bytes.len();
                bytes[at] = next().to_le_bytes()[0];
            }
            if let Ok(photo) = ready(&bytes) {
                assert!(photo.width.max(photo.height) <= LONGEST_WHOLE);
                assert_eq!(
                    opened(&photo.whole).dimensions(),
                    (photo.width, photo.height)
                );
            }
        }
    }
}
