//! An outline with a margin taken off or added.

use super::Outline;
use super::shapes::{from_shapes, overlay, to_shapes};
use crate::measure::Length;
use geo::MultiPolygon;
use geo::bool_ops::OpType;
use geo::buffer::{Buffer, BufferStyle, LineJoin};

/// Hundredths of a millimetre in a tenth.
const PER_TENTH: u64 = 10;
/// No margin is wider than the world, in hundredths.
const WIDEST: u32 = 1_000_000;
/// Round a corner the margin turns by no more than this at a time, in radians: it then falls short
/// of a true arc by no more than an eight-hundredth of its width.
const TURN: f64 = 0.1;

impl Outline {
    /// What is farther than `by` from its edge; empty, or in several patches, where it is narrow.
    pub fn inset(&self, by: Length) -> Self {
        self.grown(by, -1.0)
    }

    /// What is no farther than `by` from it. Corners become arcs.
    pub fn outset(&self, by: Length) -> Self {
        self.grown(by, 1.0)
    }

    fn grown(&self, by: Length, way: f64) -> Self {
        let by = by.raw().saturating_mul(PER_TENTH);
        let by = f64::from(u32::try_from(by).unwrap_or(WIDEST).min(WIDEST));
        if by == 0.0 {
            return self.clone();
        }
        // Rings that cross, as an altered record may have them, are mended first.
        let sound = overlay(&to_shapes(self), &MultiPolygon(vec![]), OpType::Union);
        let style = BufferStyle::new(way * by).line_join(LineJoin::Round(TURN));
        from_shapes(&sound.buffer_with_style(style))
    }
}
