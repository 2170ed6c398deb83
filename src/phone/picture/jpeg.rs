//! A JPEG file taken apart (ITU-T T.81, annex B), so that what is kept holds a picture and nothing
//! else.
//!
//! A browser that makes a JPEG from a canvas carries over nothing of the photo's own metadata, but
//! WebKit writes a block of its own, of the very kind in which cameras write the place and the time.
//! So such blocks are taken out, and what is left is looked at again.

/// Start of image.
const SOI: u8 = 0xd8;
/// End of image.
const EOI: u8 = 0xd9;
/// Start of scan: the picture's data follow it.
const SOS: u8 = 0xda;

/// One segment with its marker; of a scan, the data that follow too.
struct Segment<'a> {
    marker: u8,
    whole: &'a [u8],
}

impl Segment<'_> {
    /// Whether a decoder needs it. Of the blocks for applications (`APPn`) only two are of use: the
    /// one that says that this is a JPEG file, if it carries no small picture, and the one that says
    /// how colours are coded. Both have a fixed length, so that nothing can ride along.
    fn is_picture(&self) -> bool {
        match self.marker {
            0xc0..=0xdf => true,
            0xe0 => self.whole.len() == 18 && self.whole.get(4..9) == Some(b"JFIF\0"),
            0xee => self.whole.len() == 16 && self.whole.get(4..9) == Some(b"Adobe"),
            _ => false,
        }
    }
}

/// The picture alone: the same file without place, time, camera, comment, small picture, colour
/// profile, and without what follows its end. None if this is not a whole JPEG file.
pub fn bare(jpeg: &[u8]) -> Option<Vec<u8>> {
    let segments = segments(jpeg)?;
    let kept = segments.iter().filter(|segment| segment.is_picture());
    Some(kept.flat_map(|segment| segment.whole).copied().collect())
}

/// Whether this is a whole JPEG file that holds a picture and nothing else.
pub fn is_bare(jpeg: &[u8]) -> bool {
    segments(jpeg).is_some_and(|segments| {
        let length: usize = segments.iter().map(|segment| segment.whole.len()).sum();
        length == jpeg.len() && segments.iter().all(Segment::is_picture)
    })
}

/// The segments from the start of the image to its end; none if one is broken off or out of place.
fn segments(jpeg: &[u8]) -> Option<Vec<Segment<'_>>> {
    let mut segments = vec![Segment { marker: SOI, whole: jpeg.get(..2)? }];
    if segments[0].whole != [0xff, SOI] {
        return None;
    }
    let mut rest = &jpeg[2..];
    loop {
        // A marker may be preceded by any number of fill bytes, which are left out.
        while let [0xff, 0xff, ..] = rest {
            rest = &rest[1..];
        }
        let &[0xff, marker, ..] = rest else { return None };
        let end = match marker {
            EOI => 2,
            // Those without a length, which stand inside a scan or not at all.
            0x00 | 0x01 | 0xd0..=SOI => return None,
            SOS => {
                let head = length(rest)?;
                head + scan(rest.get(head..)?)?
            }
            _ => length(rest)?,
        };
        let (whole, after) = rest.split_at_checked(end)?;
        segments.push(Segment { marker, whole });
        if marker == EOI {
            return Some(segments);
        }
        rest = after;
    }
}

/// How long a segment is, its marker included.
fn length(segment: &[u8]) -> Option<usize> {
    let told = u16::from_be_bytes([*segment.get(2)?, *segment.get(3)?]);
    // The length counts its own two bytes, and not the marker's. One that is too short for itself
    // leaves no marker where the next must stand.
    Some(2 + usize::from(told))
}

/// How long a scan's data are: up to the next marker that is neither a stuffed byte nor a restart.
fn scan(data: &[u8]) -> Option<usize> {
    data.windows(2)
        .position(|pair| pair[0] == 0xff && !matches!(pair[1], 0x00 | 0xd0..=0xd7 | 0xff))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A segment: its marker and what it holds.
    fn segment(marker: u8, held: &[u8]) -> Vec<u8> {
        let length = u16::try_from(held.len() + 2).unwrap().to_be_bytes();
        [&[0xff, marker], &length[..], held].concat()
    }

    const JFIF: &[u8] = b"JFIF\0\x01\x01\0\0\x01\0\x01\0\0";
    const ADOBE: &[u8] = b"Adobe\0\x64\0\0\0\0\x01";
    /// With a stuffed byte and two restarts inside, one of them after a fill byte.
    const DATA: &[u8] = &[0x12, 0xff, 0x00, 0x34, 0xff, 0xd0, 0x56, 0xff, 0xff, 0xd1, 0x78];

    /// A file of two scans, as a progressive one has, with `more` after its first segment.
    fn file(more: &[Vec<u8>]) -> Vec<u8> {
        let before = [vec![0xff, SOI], segment(0xe0, JFIF)].concat();
        let scan = [segment(SOS, &[1, 1, 0, 0, 63, 0]), DATA.to_vec()].concat();
        let frame =
            [segment(0xdb, &[7; 65]), segment(0xc2, &[8, 0, 1, 0, 1, 1, 1, 0x11, 0])].concat();
        let table = segment(0xc4, &[9; 20]);
        let tail = [scan.clone(), table, scan, vec![0xff, EOI]].concat();
        [before, more.concat(), frame, tail].concat()
    }

    fn has(bytes: &[u8], word: &[u8]) -> bool {
        bytes.windows(word.len()).any(|window| window == word)
    }

    #[test]
    fn a_bare_file_stays_as_it_is() {
        // A baseline frame has another marker than the progressive one.
        let baseline = segment(0xc0, &[8, 0, 1, 0, 1, 1, 1, 0x11, 0]);
        for file in [file(&[]), file(&[segment(0xee, ADOBE)]), file(&[baseline])] {
            assert!(is_bare(&file));
            assert_eq!(bare(&file), Some(file));
        }
    }

    #[test]
    fn whatever_is_no_picture_goes() {
        let riders: [(&[u8], Vec<u8>); 10] = [
            (b"Exif", segment(0xe1, b"Exif\0\0MM\0\x2a GPS")),
            (b"ns.adobe.com", segment(0xe1, b"http://ns.adobe.com/xap/1.0/\0<x/>")),
            (b"ICC_PROFILE", segment(0xe2, b"ICC_PROFILE\0\x01\x01")),
            (b"8BIM", segment(0xed, b"Photoshop 3.0\0 8BIM")),
            (b"note", segment(0xfe, b"note")),
            (b"JFXX", segment(0xe0, b"JFXX\0\x10")),
            (b"small", segment(0xe0, b"JFIF\0\x01\x01\0\0\x01\0\x01\x01\x01 small")),
            (b"14 letters now", segment(0xe0, b"14 letters now")),
            (b"12 letters..", segment(0xee, b"12 letters..")),
            (b"rider", segment(0xee, b"Adobe\0\x64\0\0\0\0\x01 rider")),
        ];
        for (word, rider) in riders {
            let with = file(&[rider]);
            assert!(has(&with, word) && !is_bare(&with));
            let without = bare(&with).unwrap();
            assert_eq!(without, file(&[]));
            assert!(is_bare(&without));
        }
    }

    #[test]
    fn what_stands_between_scans_or_after_the_end_goes_too() {
        let plain = file(&[]);
        let table = plain.windows(2).position(|pair| pair == [0xff, 0xc4]).unwrap();
        let mut with = plain.clone();
        with.splice(table..table, segment(0xe1, b"Exif\0\0"));
        with.extend(b"Exif after the end");
        assert!(!is_bare(&with));
        assert_eq!(bare(&with), Some(plain.clone()));
        let long = [&plain[..], &[0]].concat();
        assert!(!is_bare(&long));
        assert_eq!(bare(&long), Some(plain));
    }

    #[test]
    fn fill_bytes_are_left_out() {
        let plain = file(&[]);
        let mut filled = plain.clone();
        filled.splice(2..2, [0xff, 0xff]);
        assert!(!is_bare(&filled));
        assert_eq!(bare(&filled), Some(plain));
    }

    #[test]
    fn what_is_no_whole_file_is_none() {
        let whole = file(&[segment(0xe1, b"Exif\0\0")]);
        for end in 0..whole.len() {
            assert_eq!(bare(&whole[..end]), None, "cut at {end}");
            assert!(!is_bare(&whole[..end]));
        }
        assert_eq!(bare(b"\x89PNG\r\n\x1a\n and so on"), None);
        // A length that cannot be, and markers without one where no scan is.
        assert_eq!(bare(&[0xff, SOI, 0xff, 0xe1, 0, 1, 0xff, EOI]), None);
        for marker in [0x00, 0x01, 0xd0, 0xd7, SOI] {
            assert_eq!(bare(&[0xff, SOI, 0xff, marker, 0, 2, 0xff, EOI]), None, "{marker:02x}");
        }
    }

    #[test]
    fn no_damage_lets_a_rider_through_or_stops_the_app() {
        let whole = file(&[segment(0xe1, b"Exif\0\0"), segment(0xfe, b"note")]);
        for at in 0..whole.len() {
            for value in [0x00, 0x02, 0x7f, 0xc0, 0xd8, 0xd9, 0xda, 0xff] {
                let mut damaged = whole.clone();
                damaged[at] = value;
                assert!(bare(&damaged).is_none_or(|bare| is_bare(&bare)), "{value:02x} at {at}");
            }
        }
    }
}
