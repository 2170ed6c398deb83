//! The measures of a lattice.

use super::field::ONE;
use crate::measure::Length;
use crate::plane::whole::length;
use crate::plane::{Lattice, Spot};

/// More cells than this in the rectangle round an outline are no grid for a hand: a whole face at
/// the least spacing of any clinic has a third of it.
const MOST_CELLS: f64 = 20_000.0;
/// Nor is a row with more points than this.
const LONGEST_ROW: f64 = 1_000.0;
/// Hundredths of a millimetre in a tenth.
const PER_TENTH: f64 = 10.0;
/// √3 / 2.
const HEXAGONAL_ROW: f64 = 0.866_025_403_784_438_6;

/// A lattice by its measures, in hundredths of a millimetre.
#[derive(Clone, Copy)]
pub(super) struct Cell {
    lattice: Lattice,
    /// From point to point in a row.
    pub(super) along: f64,
    /// From row to row.
    pub(super) across: f64,
    /// How far outside the outline points may lie.
    pub(super) margin: f64,
}

impl Cell {
    /// `None` without spacing, and when the rectangle would hold more points than anyone gives.
    pub(super) fn of(
        lattice: Lattice,
        spacing: Length,
        margin: Length,
        (low, high): (Spot, Spot),
    ) -> Option<Self> {
        if spacing.is_zero() {
            return None;
        }
        #[expect(clippy::cast_precision_loss, reason = "a rounded length past 2^53 is as absurd")]
        let hundredths = |length: Length| length.raw() as f64 * PER_TENTH;
        let (along, margin) = (hundredths(spacing), hundredths(margin));
        let across = match lattice {
            Lattice::Square => along,
            Lattice::Hexagonal => along * HEXAGONAL_ROW,
        };
        let side = |from: i32, to: i32| f64::from(to) - f64::from(from) + 2.0 * margin;
        let (wide, high) = (side(low.x, high.x) / along + 1.0, side(low.y, high.y) / across + 1.0);
        let few = wide * high <= MOST_CELLS && wide.max(high) <= LONGEST_ROW;
        few.then_some(Self { lattice, along, across, margin })
    }

    /// Whether every other row is shifted by half the spacing.
    pub(super) const fn shifts(self) -> bool {
        matches!(self.lattice, Lattice::Hexagonal)
    }

    /// How far any place is at most from the nearest point of the endless lattice.
    pub(super) fn reach(self) -> f64 {
        match self.lattice {
            Lattice::Square => length((self.along, self.along)) / 2.0,
            // The centre of a triangle: two thirds of its height.
            Lattice::Hexagonal => self.across * 2.0 / 3.0,
        }
    }

    /// The tangent of half the angle, in parts of [`Lie`], that a lattice is turned by at most
    /// either way: from there on it is the same again.
    pub(super) const fn last_turn(self) -> i32 {
        match self.lattice {
            // Of 22.5° and of 15°.
            Lattice::Square => 1_697,
            Lattice::Hexagonal => 1_097,
        }
    }

    /// The square of a way along the rows and across them, given in 65 536ths of a column and of a
    /// row: in 65 536ths of the spacing, squared.
    pub(super) fn fine_square(self, along: i32, across: i32) -> i64 {
        let (along, across) = (i64::from(along), i64::from(across));
        let across = across * across;
        // The square of √3 / 2 is three quarters.
        along * along + if self.shifts() { across - across / 4 } else { across }
    }

    /// The square of a distance in hundredths, in the same measure.
    pub(super) fn square(self, distance: f64) -> i64 {
        let fine = distance / self.along * f64::from(ONE);
        #[expect(clippy::cast_possible_truncation, reason = "saturates")]
        let square = (fine * fine) as i64;
        square
    }

    /// Back to a distance in hundredths.
    pub(super) fn distance(self, square: i64) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "a hair")]
        let fine = (square as f64).sqrt();
        fine * self.along / f64::from(ONE)
    }

    /// An offset as one of less than a column and a row that makes the same lattice.
    pub(super) const fn within(self, (along, across): (i32, i32)) -> (i32, i32) {
        let rows = across.div_euclid(ONE);
        let shift = if self.shifts() { rows * (ONE / 2) } else { 0 };
        ((along + shift).rem_euclid(ONE), across.rem_euclid(ONE))
    }
}

/// How a lattice lies: turned, and with one of its points at a place.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Lie {
    /// The tangent of half the angle by which it is turned from right to down, in 4096ths.
    pub turn: i32,
    /// Where one of its points lies.
    pub at: Spot,
}

impl Lie {
    /// Cosine and sine of a turn: by the tangent of half the angle, so that every phone gets the
    /// same.
    pub(super) fn direction(turn: i32) -> (f64, f64) {
        let half = f64::from(turn) / 4_096.0;
        let square = half * half;
        ((1.0 - square) / (1.0 + square), 2.0 * half / (1.0 + square))
    }
}
