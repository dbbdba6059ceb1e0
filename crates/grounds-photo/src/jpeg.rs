//! The skeleton of a JPEG (ITU-T T.81, annex B): its segments, without drawing anything.
//!
//! Decoders fill in what is missing, so that half a picture looks like a whole one with a grey end.
//! Here a picture that ends too soon, or that is said to be larger than its data can be, is found
//! before it is drawn.

use crate::refused::Refused;

/// What the segments of a JPEG say.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Skeleton {
    /// Whether it carries anything beside the picture: tags, profiles, comments.
    pub(crate) has_tags: bool,
    /// Width and height by its frame header.
    size: Option<(u32, u32)>,
    /// Bytes of entropy-coded data.
    coded: usize,
    /// In how many scans it is drawn.
    scans: u32,
}

/// The most scans that a picture is drawn in: cameras write one, those that build up a dozen. Each
/// goes over the whole picture, however little it says.
const MOST_SCANS: u32 = 32;

impl Skeleton {
    /// Reads the segments up to the end of the image.
    pub(crate) fn of(bytes: &[u8]) -> Result<Self, Refused> {
        let mut skeleton = Self::default();
        // Behind the start of image.
        let mut at = 2;
        loop {
            at = next_marker(bytes, at)?;
            let marker = *bytes.get(at + 1).ok_or(Refused::CutShort)?;
            at += 2;
            match marker {
                0xd9 => return skeleton.checked(),
                0x01 | 0xd0..=0xd8 => {}
                0xda => {
                    let data = at + segment(bytes, at)?.len() + 2;
                    at = behind_scan(bytes, data)?;
                    skeleton.coded += at - data;
                    skeleton.scans += 1;
                }
                _ => {
                    let inside = segment(bytes, at)?;
                    skeleton.note(marker, inside);
                    at += inside.len() + 2;
                }
            }
        }
    }

    fn note(&mut self, marker: u8, inside: &[u8]) {
        match (marker, inside) {
            // Frame headers; 0xc4, 0xc8 and 0xcc are something else.
            (0xc0..=0xc3 | 0xc5..=0xc7 | 0xc9..=0xcb | 0xcd..=0xcf, &[_, a, b, c, d, ..]) => {
                let (height, width) = (u16::from_be_bytes([a, b]), u16::from_be_bytes([c, d]));
                self.size = Some((u32::from(width), u32::from(height)));
            }
            // The plain JFIF header, without a picture in it.
            (0xe0, [b'J', b'F', b'I', b'F', ..]) if inside.len() == 14 => {}
            (0xe0..=0xef | 0xfe, _) => self.has_tags = true,
            _ => {}
        }
    }

    /// Every block of 8 by 8 takes at least one bit, however it is coded.
    fn checked(self) -> Result<Self, Refused> {
        if self.scans > MOST_SCANS {
            let why = format!("it is drawn in {} steps", self.scans);
            return Err(Refused::Broken { why });
        }
        let Some((width, height)) = self.size else {
            return Err(Refused::CutShort);
        };
        let blocks = u64::from(width.div_ceil(8)) * u64::from(height.div_ceil(8));
        if (self.coded as u64) < blocks / 8 {
            return Err(Refused::Lies { width, height });
        }
        Ok(self)
    }
}

/// Where the next marker begins, behind anything that stands between segments.
fn next_marker(bytes: &[u8], from: usize) -> Result<usize, Refused> {
    let rest = bytes.get(from..).ok_or(Refused::CutShort)?;
    rest.windows(2)
        .position(|pair| pair[0] == 0xff && !matches!(pair[1], 0x00 | 0xff))
        .map(|skipped| from + skipped)
        .ok_or(Refused::CutShort)
}

/// What stands in a segment, behind its length.
fn segment(bytes: &[u8], at: usize) -> Result<&[u8], Refused> {
    let rest = bytes.get(at..).ok_or(Refused::CutShort)?;
    let &[high, low, ..] = rest else {
        return Err(Refused::CutShort);
    };
    let length = usize::from(u16::from_be_bytes([high, low]));
    if length < 2 {
        let why = "one of its parts has no length".to_owned();
        return Err(Refused::Broken { why });
    }
    rest.get(2..length).ok_or(Refused::CutShort)
}

/// Where the marker behind a scan stands: restarts and stuffed bytes belong to the scan.
fn behind_scan(bytes: &[u8], from: usize) -> Result<usize, Refused> {
    let rest = bytes.get(from..).ok_or(Refused::CutShort)?;
    rest.windows(2)
        .position(|pair| pair[0] == 0xff && !matches!(pair[1], 0x00 | 0xd0..=0xd7 | 0xff))
        .map(|skipped| from + skipped)
        .ok_or(Refused::CutShort)
}
