//! One round, point by point.

use super::SkipReason;
use crate::care::dose::RoundPlan;
use crate::measure::{Moment, Units, Volume};
use crate::plane::{Grid, Spot};

/// What became of a point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Point {
    /// Not yet.
    Open,
    /// Injected with this volume.
    Injected(Volume),
    /// Left out.
    Skipped(SkipReason),
    /// Added by mistake and taken back. It keeps its number, for what was added after it.
    Withdrawn,
}

/// One round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Round {
    /// As planned.
    pub plan: RoundPlan,
    /// When it began.
    pub begun: Moment,
    /// The grid that it was begun on, if there was an outline.
    pub grid: Option<Grid>,
    /// What became of each point; the first is point 1. Those added by hand come after the planned.
    pub points: Vec<Point>,
    /// Where the points added by hand lie.
    pub added: Vec<Option<Spot>>,
    /// When its injections were over.
    pub finished: Option<Moment>,
}

impl Round {
    /// Volume injected.
    pub fn volume(&self) -> Volume {
        self.points
            .iter()
            .map(|point| match point {
                Point::Injected(volume) => *volume,
                Point::Open | Point::Skipped(_) | Point::Withdrawn => Volume::ZERO,
            })
            .sum()
    }

    /// Units injected.
    pub fn units(&self) -> Units {
        self.plan.strength.units_in(self.volume())
    }

    /// Points that nothing is recorded of.
    pub fn open(&self) -> u32 {
        let open = self.points.iter().filter(|point| **point == Point::Open).count();
        u32::try_from(open).unwrap_or(u32::MAX)
    }

    /// Where a point lies, by its number from 1; `None` without an outline.
    pub fn spot(&self, point: u32) -> Option<Spot> {
        let index = usize::try_from(point.checked_sub(1)?).ok()?;
        match index.checked_sub(self.plan.points as usize) {
            None => self.grid.as_ref()?.spots().get(index).copied(),
            Some(added) => self.added.get(added).copied().flatten(),
        }
    }

    /// Whether a point, by its number from 1, is open: there, and nothing recorded of it.
    pub fn is_open(&self, point: u32) -> bool {
        let index = point.checked_sub(1).and_then(|index| usize::try_from(index).ok());
        index.and_then(|index| self.points.get(index)) == Some(&Point::Open)
    }

    /// The next point to inject, from 1; `None` when each is settled.
    pub fn next(&self) -> Option<u32> {
        let open = self.points.iter().position(|point| *point == Point::Open)?;
        u32::try_from(open + 1).ok()
    }
}
