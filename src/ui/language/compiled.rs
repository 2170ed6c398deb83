//! Whether a compiled catalogue holds together, before its reader trusts the numbers in it: one of a
//! damaged file would ask for gigabytes.
//!
//! The form is that of GNU gettext's manual, "The Format of GNU MO Files": a head, two tables of
//! lengths and places, and the texts.

/// The head's first number, in the order of bytes that this app's catalogues are written in.
const MAGIC: u32 = 0x9504_12de;

/// Whether every text named in the tables lies within the file.
pub fn whole(bytes: &[u8]) -> bool {
    let number = |at: usize| -> Option<usize> {
        let four = bytes.get(at..at.checked_add(4)?)?;
        usize::try_from(u32::from_le_bytes(four.try_into().ok()?)).ok()
    };
    let table = |at: usize, texts: usize| -> Option<()> {
        let end = texts.checked_mul(8)?.checked_add(at)?;
        bytes.get(at..end)?;
        (at..end).step_by(8).try_for_each(|row| {
            let (length, place) = (number(row)?, number(row + 4)?);
            bytes.get(place..place.checked_add(length)?).map(|_| ())
        })
    };
    let tables = || -> Option<()> {
        (number(0)? == usize::try_from(MAGIC).ok()?).then_some(())?;
        let texts = number(8)?;
        table(number(12)?, texts)?;
        table(number(16)?, texts)
    };
    tables().is_some()
}
