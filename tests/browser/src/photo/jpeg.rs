//! JPEG files of one grey, with or without what a camera writes beside the picture: small however
//! large the picture is.

/// A photo of one grey.
#[derive(Clone, Copy, Debug)]
pub struct Flat {
    /// Width and height as they are stored, in pixels.
    pub size: (u16, u16),
    /// Whether the file tells maker and place, and that the picture is to be turned to the right.
    pub exif: bool,
}

/// The maker that the file names.
pub const MAKER: &[u8] = b"Invented camera\0";

impl Flat {
    /// The file.
    pub fn bytes(self) -> Vec<u8> {
        let (width, height) = self.size;
        let mut file = vec![0xff, 0xd8];
        if self.exif {
            segment(&mut file, 0xe1, &exif());
        }
        // Every coefficient as it is.
        segment(&mut file, 0xdb, &[&[0][..], &[1; 64]].concat());
        let [h, w] = [height, width].map(u16::to_be_bytes);
        segment(&mut file, 0xc0, &[8, h[0], h[1], w[0], w[1], 1, 1, 0x11, 0]);
        // Two codes for the mean of a block: the same as before, or a change of ten bits.
        segment(&mut file, 0xc4, &[&[0x00, 1, 1][..], &[0; 14], &[0, 10]].concat());
        // One code for the rest of a block: nothing.
        segment(&mut file, 0xc4, &[&[0x10, 1][..], &[0; 15], &[0]].concat());
        segment(&mut file, 0xda, &[1, 1, 0x00, 0, 63, 0]);
        file.extend(blocks(usize::from(width.div_ceil(8)) * usize::from(height.div_ceil(8))));
        file.extend([0xff, 0xd9]);
        file
    }
}

/// The picture: the first block is lighter than the middle grey, each other as the one before.
fn blocks(count: usize) -> Vec<u8> {
    // "10", the change of 576 in ten bits, and "0": 13 bits. Each other block is "00".
    let mut bytes = vec![0b1010_0100, 0b0000_0000];
    let bits = 13 + 2 * (count - 1);
    bytes.resize(bits.div_ceil(8).max(2), 0);
    // What is left of the last byte is filled with ones.
    if let Some(last) = bytes.last_mut()
        && !bits.is_multiple_of(8)
    {
        *last |= 0xff >> (bits % 8);
    }
    bytes
}

fn segment(file: &mut Vec<u8>, kind: u8, content: &[u8]) {
    let length = u16::try_from(content.len() + 2).expect("a short segment");
    file.extend([0xff, kind]);
    file.extend(length.to_be_bytes());
    file.extend(content);
}

/// Maker, "turn it to the right", and a place on the northern half of the earth.
fn exif() -> Vec<u8> {
    const IFD0: u32 = 8;
    const ENTRIES: u32 = 3;
    const GPS: u32 = IFD0 + 2 + ENTRIES * 12 + 4;
    const TEXT: u32 = GPS + 2 + 12 + 4;
    let mut out = b"Exif\0\0II*\0".to_vec();
    out.extend(IFD0.to_le_bytes());
    let entry = |out: &mut Vec<u8>, tag: u16, kind: u16, count: u32, value: u32| {
        out.extend(tag.to_le_bytes());
        out.extend(kind.to_le_bytes());
        out.extend(count.to_le_bytes());
        out.extend(value.to_le_bytes());
    };
    out.extend([3, 0]);
    entry(&mut out, 0x010f, 2, u32::try_from(MAKER.len()).expect("short"), TEXT);
    entry(&mut out, 0x0112, 3, 1, 6);
    entry(&mut out, 0x8825, 4, 1, GPS);
    out.extend([0; 4]);
    out.extend([1, 0]);
    entry(&mut out, 0x0001, 2, 2, u32::from(b'N'));
    out.extend([0; 4]);
    out.extend(MAKER);
    out
}

/// Width and height that a JPEG file tells, in pixels.
pub fn extent(file: &[u8]) -> Option<(u16, u16)> {
    let mut rest = file.strip_prefix(&[0xff, 0xd8])?;
    loop {
        let [0xff, kind, high, low, ..] = *rest else { return None };
        let length = usize::from(u16::from_be_bytes([high, low]));
        let content = rest.get(4..2 + length)?;
        if (0xc0..=0xc2).contains(&kind) {
            let side =
                |at: usize| Some(u16::from_be_bytes([*content.get(at)?, *content.get(at + 1)?]));
            return Some((side(3)?, side(1)?));
        }
        rest = &rest[2 + length..];
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_flat_photo_is_small_and_tells_its_size() {
        let flat = Flat { size: (8_000, 5_000), exif: false }.bytes();
        assert!(flat.len() < 200_000);
        assert_eq!(extent(&flat), Some((8_000, 5_000)));
        let told = Flat { size: (64, 48), exif: true }.bytes();
        assert!(told.windows(MAKER.len()).any(|part| part == MAKER));
        assert_eq!(extent(&told), Some((64, 48)));
        assert_eq!(extent(b"no photo"), None);
    }
}
