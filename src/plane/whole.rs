//! Between floats and whole numbers, inside a computation, and one way to sort.
//!
//! Only what is computed alike everywhere is used for grids (sums, products, roots, these casts):
//! the same outline gets the same grid on every phone.

/// A count as a float.
#[expect(clippy::cast_precision_loss, reason = "counts of points and places are far below 2^53")]
pub(super) const fn real(count: usize) -> f64 {
    count as f64
}

/// The whole part of what is not negative; zero for what is, or is no number.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
pub(super) const fn whole(value: f64) -> usize {
    value as usize
}

/// The next whole number up from what is not negative; zero for what is.
pub(super) fn above(value: f64) -> usize {
    let down = whole(value);
    down + usize::from(value > real(down))
}

/// How long the way is.
pub(super) fn length((x, y): (f64, f64)) -> f64 {
    (x * x + y * y).sqrt()
}

/// A small index, to be kept in half the memory.
#[expect(clippy::cast_possible_truncation, reason = "points and places are far fewer than 2^32")]
pub(super) const fn small(index: usize) -> u32 {
    index as u32
}

/// Sorts indices by what stands beside them, the least first; of equals the one before stays so.
/// The only sort for all that needs one, for each takes thousands of bytes.
pub(super) fn sort(indices: &mut [(f64, u32)]) {
    indices.sort_by(|one, other| one.0.total_cmp(&other.0));
}
