//! The little linear algebra that a photo needs.

/// A place, on the skin or in the photo.
pub(super) type Pair = (f64, f64);
/// Three numbers: a row, or a place before it is divided by its last.
pub(super) type Triple = [f64; 3];

/// A map of one plane to another, in homogeneous places; row by row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Matrix(pub [Triple; 3]);

impl Matrix {
    /// Of three columns.
    pub(super) fn columns([a, b, c]: [Triple; 3]) -> Self {
        let ([ax, ay, az], [bx, by, bz], [cx, cy, cz]) = (a, b, c);
        Self([[ax, bx, cx], [ay, by, cy], [az, bz, cz]])
    }

    /// Its columns.
    pub(super) fn transposed(self) -> [Triple; 3] {
        let [a, b, c] = self.0;
        Self::columns([a, b, c]).0
    }

    /// This map after the other one.
    pub(super) fn after(&self, other: &Self) -> Self {
        Self::columns(other.transposed().map(|column| self.times(column)))
    }

    fn times(&self, place: Triple) -> Triple {
        self.0.map(|row| dot(row, place))
    }

    /// Where a place goes; `None` for one that is on the horizon or beyond it.
    pub(super) fn map(&self, (x, y): Pair) -> Option<Pair> {
        let [x, y, depth] = self.times([x, y, 1.0]);
        let place = (x / depth, y / depth);
        (depth > 0.0 && place.0.is_finite() && place.1.is_finite()).then_some(place)
    }

    /// The map back; `None` when it flattens the plane.
    pub(super) fn inverse(&self) -> Option<Self> {
        let [a, b, c] = self.transposed();
        let volume = dot(a, cross(b, c));
        let rows = [cross(b, c), cross(c, a), cross(a, b)];
        let inverse = Self(rows.map(|row| scaled(row, 1.0 / volume)));
        inverse.0.iter().flatten().all(|number| number.is_finite()).then_some(inverse)
    }

    /// The one map that takes the corners of the unit square, from the origin along the first axis
    /// round to the second, to these four places.
    pub(super) fn of_square([a, b, c, d]: [Pair; 4]) -> Self {
        let less = |one: Pair, other: Pair| (one.0 - other.0, one.1 - other.1);
        let ((bx, by), (dx, dy)) = (less(b, c), less(d, c));
        // How far the four are from a parallelogram: what the vanishing points have to make up.
        let (sx, sy) = (a.0 - b.0 + c.0 - d.0, a.1 - b.1 + c.1 - d.1);
        let whole = bx * dy - dx * by;
        let (tip, lean) = ((sx * dy - dx * sy) / whole, (bx * sy - sx * by) / whole);
        Self([
            [b.0 - a.0 + tip * b.0, d.0 - a.0 + lean * d.0, a.0],
            [b.1 - a.1 + tip * b.1, d.1 - a.1 + lean * d.1, a.1],
            [tip, lean, 1.0],
        ])
    }
}

pub(super) fn dot([ax, ay, az]: Triple, [bx, by, bz]: Triple) -> f64 {
    ax * bx + ay * by + az * bz
}

pub(super) fn cross([ax, ay, az]: Triple, [bx, by, bz]: Triple) -> Triple {
    [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx]
}

pub(super) fn scaled(of: Triple, by: f64) -> Triple {
    of.map(|number| number * by)
}

pub(super) fn plus([ax, ay, az]: Triple, [bx, by, bz]: Triple) -> Triple {
    [ax + bx, ay + by, az + bz]
}

/// As long as one.
pub(super) fn unit(of: Triple) -> Triple {
    scaled(of, 1.0 / dot(of, of).sqrt())
}

/// Solves the equations whose rows are the coefficients and, last, the right side; `None` when they
/// do not settle it. `M` is one more than `N`.
pub(super) fn solved<const N: usize, const M: usize>(mut rows: [[f64; M]; N]) -> Option<[f64; N]> {
    for column in 0..N {
        let size = |row: &[f64; M]| row.get(column).map_or(0.0, |number| number.abs());
        let best = (column..N).max_by(|&a, &b| size(&rows[a]).total_cmp(&size(&rows[b])))?;
        rows.swap(column, best);
        let pivot = rows[column];
        if !pivot[column].is_normal() {
            return None;
        }
        for (place, row) in rows.iter_mut().enumerate() {
            if place != column {
                let part = row[column] / pivot[column];
                row.iter_mut().zip(pivot).for_each(|(number, of)| *number -= part * of);
            }
        }
    }
    let mut found = [0.0; N];
    for (place, (found, row)) in found.iter_mut().zip(rows).enumerate() {
        *found = row.last()? / row[place];
    }
    found.iter().all(|number| number.is_finite()).then_some(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equations_are_solved_or_left() {
        let found = solved([[0.0, 2.0, 4.0], [3.0, 1.0, 5.0]]);
        assert_eq!(found, Some([1.0, 2.0]));
        assert_eq!(solved([[1.0, 2.0, 4.0], [2.0, 4.0, 5.0]]), None);
        assert_eq!(solved([[f64::NAN, 2.0, 4.0], [2.0, 4.0, 5.0]]), None);
    }

    /// By OpenCV 5.0.0, `getPerspectiveTransform`: see `tests/fixtures/cards.py`.
    #[test]
    fn four_corners_map_as_opencv_maps_them() {
        #[derive(serde::Deserialize)]
        struct View {
            corners: [f64; 8],
            sides: Pair,
            exact: Vec<f64>,
        }
        let views = include_str!("../../../tests/fixtures/cards.json");
        let views: Vec<View> = serde_json::from_str(views).unwrap();
        assert_eq!(views.len(), 160);
        for view in views {
            let [ax, ay, bx, by, cx, cy, dx, dy] = view.corners.map(|tenths| tenths / 10.0);
            let seen = Matrix::of_square([(ax, ay), (bx, by), (cx, cy), (dx, dy)]);
            let back = seen.inverse().unwrap();
            for part in view.exact.chunks(4) {
                let (x, y) = back.map((part[0], part[1])).unwrap();
                let off = (x * view.sides.0 - part[2]).hypot(y * view.sides.1 - part[3]);
                assert!(off <= 0.01, "{off} mm");
            }
        }
    }

    #[test]
    fn there_and_back() {
        let map = Matrix::of_square([(10.0, 5.0), (90.0, 12.0), (80.0, 70.0), (15.0, 60.0)]);
        assert_eq!(map.map((0.0, 0.0)), Some((10.0, 5.0)));
        let (x, y) = map.map((1.0, 1.0)).unwrap();
        assert!((x - 80.0).abs() < 1e-9 && (y - 70.0).abs() < 1e-9);
        let back = map.inverse().unwrap();
        let (x, y) = back.map(map.map((0.3, 0.8)).unwrap()).unwrap();
        assert!((x - 0.3).abs() < 1e-12 && (y - 0.8).abs() < 1e-12);
        assert!(Matrix([[0.0; 3]; 3]).inverse().is_none());
    }

    #[test]
    fn nothing_lies_beyond_the_horizon() {
        let map = Matrix([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, -1.0, 1.0]]);
        assert_eq!(map.map((0.0, 0.5)), Some((0.0, 1.0)));
        assert_eq!([map.map((0.0, 1.0)), map.map((0.0, 2.0)), map.map((0.0, f64::NAN))], [None; 3]);
    }
}
