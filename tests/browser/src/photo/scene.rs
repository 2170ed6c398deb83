//! A plane of skin with a card and a pale blob on it, and the camera that looks at it.

use super::bmp;
use crate::finger::Place;
use std::f64::consts::TAU;

/// The common size of a bank card in millimetres, as its standard has it.
const CARD: Place = (85.60, 53.98);
/// A known length, in millimetres, is drawn so wide.
const BAR: f64 = 4.0;

type Vector = [f64; 3];

/// A pinhole camera over a plane.
#[derive(Clone, Copy, Debug)]
pub struct Camera {
    /// Width and height of its photo, in pixels.
    pub size: (u32, u32),
    /// The focal length, in pixels.
    pub focal: f64,
    /// From the camera to the plane along the line of sight, in millimetres.
    pub distance: f64,
    /// How far the plane is turned out of the photo's, in degrees.
    pub tilt: f64,
    /// The line in the photo that it is turned about, in degrees from the right.
    pub about: f64,
}

impl Camera {
    /// Where a place of the plane, in millimetres, lies in the photo, in pixels.
    pub fn photo(&self, (x, y): Place) -> Place {
        let [right, down] = self.axes();
        let at = |n: usize| x * right[n] + y * down[n];
        let far = at(2) + self.distance;
        let (cx, cy) = self.middle();
        (cx + self.focal * at(0) / far, cy + self.focal * at(1) / far)
    }

    /// Which place of the plane is seen at a place of the photo.
    fn plane(&self, (px, py): Place) -> Place {
        let [right, down] = self.axes();
        let (cx, cy) = self.middle();
        let ray = [(px - cx) / self.focal, (py - cy) / self.focal, 1.0];
        let normal = cross(right, down);
        let reach = normal[2] * self.distance / dot(normal, ray);
        let from_middle = [ray[0] * reach, ray[1] * reach, ray[2] * reach - self.distance];
        (dot(from_middle, right), dot(from_middle, down))
    }

    /// The plane's two axes as the camera sees them: turned about a line in the photo.
    fn axes(&self) -> [Vector; 2] {
        let (sin, cos) = self.tilt.to_radians().sin_cos();
        let (sa, ca) = self.about.to_radians().sin_cos();
        let about = [ca, sa, 0.0];
        [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0]].map(|axis| {
            let (aside, along) = (cross(about, axis), dot(about, axis) * (1.0 - cos));
            [0, 1, 2].map(|n| axis[n] * cos + aside[n] * sin + about[n] * along)
        })
    }

    fn middle(&self) -> Place {
        (f64::from(self.size.0) / 2.0, f64::from(self.size.1) / 2.0)
    }
}

/// A round that is no circle: its radius is `radius` × (1 + Σ waves of 2, 3, … to the round).
#[derive(Clone, Copy, Debug)]
pub struct Blob {
    /// Its middle on the plane, in millimetres.
    pub middle: Place,
    /// In millimetres.
    pub radius: f64,
    /// How strong the wave of 2 to the round is, and those of 3 and 4.
    pub waves: [f64; 3],
}

impl Blob {
    fn radius_at(&self, turn: f64) -> f64 {
        let waves = self.waves.iter().zip([2.0, 3.0, 4.0]);
        self.radius * (1.0 + waves.map(|(wave, times)| wave * (times * turn).cos()).sum::<f64>())
    }

    /// Half the integral of the squared radius: the waves are orthogonal, so it is exact. In mm².
    pub fn area(&self) -> f64 {
        let waves: f64 = self.waves.iter().map(|wave| wave * wave / 2.0).sum();
        TAU / 2.0 * self.radius * self.radius * (1.0 + waves)
    }

    /// Places along its edge, on the plane, a little further than once round.
    pub fn edge(&self, steps: i32) -> Vec<Place> {
        let place = |n: i32| {
            let turn = TAU * f64::from(n) / f64::from(steps);
            let radius = self.radius_at(turn);
            (self.middle.0 + radius * turn.cos(), self.middle.1 + radius * turn.sin())
        };
        (0..=steps + 1).map(place).collect()
    }

    fn holds(&self, (x, y): Place) -> bool {
        let (dx, dy) = (x - self.middle.0, y - self.middle.1);
        dx.hypot(dy) <= self.radius_at(dy.atan2(dx))
    }
}

/// What lies on the plane, in millimetres.
#[derive(Clone, Copy, Debug)]
pub struct Scene {
    /// The camera.
    pub camera: Camera,
    /// A card: its middle, and how far it is turned, in degrees.
    pub card: Option<(Place, f64)>,
    /// A dark bar of known length, from end to end.
    pub bar: Option<[Place; 2]>,
    /// The pale skin.
    pub blob: Blob,
}

impl Scene {
    /// The card's corners on the plane, clockwise as they are seen from the one that was the upper
    /// left.
    pub fn corners(&self) -> [Place; 4] {
        let ((x, y), turned) = self.card.expect("a card");
        let (sin, cos) = turned.to_radians().sin_cos();
        [(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)].map(|(right, down)| {
            let (u, v) = (right * CARD.0, down * CARD.1);
            (x + u * cos - v * sin, y + u * sin + v * cos)
        })
    }

    /// The photo as a file.
    pub fn bmp(&self) -> Vec<u8> {
        let (width, height) = self.camera.size;
        bmp(width, height, |x, y| {
            self.colour(self.camera.plane((f64::from(x) + 0.5, f64::from(y) + 0.5)))
        })
    }

    fn colour(&self, at: Place) -> [u8; 3] {
        let dark = self.card.is_some() && inside(&self.corners(), at)
            || self.bar.is_some_and(|bar| on_bar(bar, at));
        if dark {
            [38, 52, 84]
        } else if self.blob.holds(at) {
            [236, 222, 214]
        } else {
            [214, 168, 142]
        }
    }
}

fn on_bar([a, b]: [Place; 2], at: Place) -> bool {
    let length = (b.0 - a.0).hypot(b.1 - a.1);
    let (u, v) = ((b.0 - a.0) / length, (b.1 - a.1) / length);
    let (dx, dy) = (at.0 - a.0, at.1 - a.1);
    (0.0..=length).contains(&(dx * u + dy * v)) && (dy * u - dx * v).abs() <= BAR / 2.0
}

/// Within four corners, clockwise as they are seen.
fn inside(corners: &[Place; 4], at: Place) -> bool {
    (0..4).all(|n| {
        let (a, b) = (corners[n], corners[(n + 1) % 4]);
        (b.0 - a.0) * (at.1 - a.1) >= (b.1 - a.1) * (at.0 - a.0)
    })
}

fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: Vector, b: Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

#[cfg(test)]
mod tests {
    use super::*;

    const TILTED: Camera =
        Camera { size: (1_200, 1_600), focal: 1_200.0, distance: 210.0, tilt: 28.0, about: 20.0 };

    #[test]
    fn the_plane_is_seen_where_it_is_projected() {
        for place in [(0.0, 0.0), (40.0, -55.0), (-31.0, 62.0)] {
            let (x, y) = TILTED.plane(TILTED.photo(place));
            assert!((x - place.0).hypot(y - place.1) < 1e-9, "{place:?}");
        }
    }

    #[test]
    fn a_plane_that_is_not_tilted_keeps_its_shape_and_a_tilted_one_does_not() {
        let level = Camera { tilt: 0.0, ..TILTED };
        let (x, y) = level.photo((21.0, -42.0));
        assert!((x - 720.0).abs() < 1e-9 && (y - 560.0).abs() < 1e-9);
        // Turned about the horizontal by 60 degrees, what lies beside the line is half as high.
        let steep = Camera { tilt: 60.0, about: 0.0, distance: 1e7, focal: 1e7, ..TILTED };
        let (x, y) = steep.photo((10.0, 10.0));
        assert!((x - 610.0).abs() < 1e-3 && (y - 805.0).abs() < 1e-3, "{x} {y}");
    }

    #[test]
    fn the_area_of_a_blob_is_that_of_its_edge() {
        let blob = Blob { middle: (5.0, -9.0), radius: 20.0, waves: [0.2, 0.1, -0.05] };
        let edge = blob.edge(4_000);
        let twice: f64 = edge[..=4_000].windows(2).map(|s| s[0].0 * s[1].1 - s[1].0 * s[0].1).sum();
        assert!((twice / 2.0 / blob.area() - 1.0).abs() < 1e-5, "{twice}");
    }
}
