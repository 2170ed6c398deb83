//! An outline made up for benchmarks and demonstrations.

use super::whole::real;
use super::{Outline, Patch, Ring, Spot};

/// Waves round the edge.
const WAVES: f64 = 7.0;
/// How high they are, as a part of the mean radius.
const HEIGHT: f64 = 0.12;

/// A closed wavy outline of so many places (at least three), about `across` millimetres from side
/// to side (at most a metre), drawn evenly round its centre. The same each time.
pub fn wavy(vertices: usize, across: f64) -> Outline {
    let vertices = vertices.max(3);
    let radius = across.clamp(1.0, 1_000.0) / 2.0 / (1.0 + HEIGHT) * f64::from(Spot::PER_MM);
    let spot = |place: usize| {
        let turn = std::f64::consts::TAU * real(place) / real(vertices);
        // A slower wave beside the quick one, so that no side is like another.
        let wave = 0.7 * (WAVES * turn).sin() + 0.3 * (3.0 * turn + 1.0).sin();
        let far = radius * (1.0 + HEIGHT * wave);
        Spot::nearest(far * turn.cos(), far * turn.sin())
    };
    let ring = Ring::new((0..vertices).map(spot).collect());
    Outline::of(ring.map(|outer| Patch { outer, holes: vec![] }).into_iter().collect())
}

#[cfg(test)]
mod tests {
    use super::super::whole::whole;
    use super::*;

    #[test]
    fn it_has_the_places_and_the_width_asked_for() {
        for (vertices, across) in [(3, 20.0), (125, 40.0), (8_000, 260.0)] {
            let outline = wavy(vertices, across);
            assert_eq!(outline.vertices(), vertices);
            let (low, high) = outline.bounds().unwrap();
            let wide = whole(f64::from(high.x - low.x) / 100.0);
            assert!(wide <= whole(across) && wide * 10 > whole(across) * 6, "{wide}");
        }
    }
}
