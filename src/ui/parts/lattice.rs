//! Where the points of an even grid are drawn. For drawing only: floats of pixels.

/// The width every drawing is laid out in.
const WIDTH: f64 = 312.0;
/// Points never stand further apart than this; a few would look lost.
const WIDEST_PITCH: f64 = 50.0;
/// Room around the outermost points for the ring of the next one.
const MARGIN: f64 = 8.0;
/// From this pitch on, a numeral fits into each point.
const NUMERAL_PITCH: f64 = 29.0;
/// A point's radius as a share of the pitch.
const RADIUS: f64 = 0.36;
/// Wider than high, as the space on a phone is.
const ASPECT: f64 = 1.4;

/// An even grid, walked to and fro so that each point is next to the one before.
#[derive(Clone, Debug, PartialEq)]
pub struct Lattice {
    /// Width of the drawing.
    pub width: f64,
    /// Height of the drawing.
    pub height: f64,
    /// Radius of a point.
    pub radius: f64,
    /// Whether a numeral fits into each point.
    pub numbered: bool,
    /// The points, in the order they are taken.
    pub spots: Vec<(f64, f64)>,
}

/// The grid of `n` points.
#[allow(clippy::cast_precision_loss, clippy::cast_possible_truncation, clippy::cast_sign_loss)]
pub fn lattice(n: usize) -> Lattice {
    let columns = ((n as f64 * ASPECT).sqrt().ceil() as usize).clamp(1, n.max(1));
    let rows = n.div_ceil(columns).max(1);
    let pitch = ((WIDTH - 2.0 * MARGIN) / columns as f64).min(WIDEST_PITCH);
    let left = (WIDTH - pitch * (columns - 1) as f64) / 2.0;
    let top = MARGIN + pitch / 2.0;
    let spot = |at: usize| {
        let (row, step) = (at / columns, at % columns);
        let column = if row.is_multiple_of(2) { step } else { columns - 1 - step };
        (left + pitch * column as f64, top + pitch * row as f64)
    };
    Lattice {
        width: WIDTH,
        height: 2.0 * MARGIN + pitch * rows as f64,
        radius: pitch * RADIUS,
        numbered: pitch >= NUMERAL_PITCH,
        spots: (0..n).map(spot).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_point_is_next_to_the_one_before() {
        for n in 2..=120 {
            let grid = lattice(n);
            assert_eq!(grid.spots.len(), n);
            let pitch = grid.radius / RADIUS;
            for pair in grid.spots.windows(2) {
                let gap = (pair[0].0 - pair[1].0).hypot(pair[0].1 - pair[1].1);
                assert!((gap - pitch).abs() < 1e-6, "{n} points");
            }
        }
    }

    #[test]
    fn all_points_lie_inside_and_do_not_touch() {
        for n in 1..=120 {
            let grid = lattice(n);
            assert!(grid.height <= 300.0, "{n} points");
            for &(x, y) in &grid.spots {
                assert!(x - grid.radius >= 0.0 && x + grid.radius <= grid.width, "{n} points");
                assert!(y - grid.radius >= 0.0 && y + grid.radius <= grid.height, "{n} points");
            }
        }
        assert!(lattice(60).numbered);
        assert!(!lattice(120).numbered);
    }

    #[test]
    fn no_points_draw_nothing() {
        assert!(lattice(0).spots.is_empty());
    }
}
