//! Readings over time as coordinates. For drawing only: floats of pixels.

use crate::measure::Span;

/// One reading, in a unit that its whole course shares.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Reading {
    /// When, counted from a common start.
    pub at: Span,
    /// What was read, never negative; nothing where it was not read though it might have been.
    pub value: Option<f64>,
}

/// How the readings of a course hang together.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Shape {
    /// From reading to reading; broken where one is missing.
    #[default]
    Line,
    /// A sum that rises at each reading and stays until the next.
    Steps,
}

/// One thing that was followed over time, with its words.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Course {
    /// What it is.
    pub name: String,
    /// The last reading with its unit.
    pub last: String,
    /// All of it in words, for a screen reader.
    pub label: String,
    /// The readings, earliest first.
    pub readings: Vec<Reading>,
    /// What they are compared with, reading by reading; drawn broken.
    pub other: Vec<Reading>,
    /// The greatest reading that is in order, where there is such a thing.
    pub limit: Option<f64>,
    /// The top of the scale, where it is fixed.
    pub top: Option<u64>,
    /// How the readings hang together.
    pub shape: Shape,
}

/// The time that all courses of a picture share: from nought to the last that happened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Axis {
    /// The right end.
    pub end: Span,
}

impl Axis {
    /// An axis that holds all of these times. One hour at least: with a single reading there is
    /// still a way ahead to see.
    pub fn over(times: impl IntoIterator<Item = Span>) -> Self {
        Self { end: times.into_iter().fold(Span::hours(1), Span::max) }
    }

    /// Where a time lies; one past the end at the end.
    #[allow(clippy::cast_precision_loss)]
    pub fn x(self, at: Span) -> f64 {
        let millis = |span: Span| span.as_millis() as f64;
        LEFT + (RIGHT - LEFT) * millis(at.min(self.end)) / millis(self.end)
    }
}

/// Width of the drawing.
pub const WIDTH: f64 = 312.0;
/// Height of one course.
pub const HEIGHT: f64 = 66.0;
/// Left of the plot stand the numbers.
pub const LEFT: f64 = 38.0;
/// The right end of the plot; past it there is room for half a dot and half a numeral.
pub const RIGHT: f64 = 302.0;
/// The top of the plot.
pub const TOP: f64 = 8.0;
/// The bottom of the plot: nought.
pub const BOTTOM: f64 = 58.0;
/// Height of the line of numerals over the first course.
pub const NUMERALS: f64 = 18.0;
/// Numerals nearer to each other than this would lie on each other.
const APART: f64 = 14.0;

/// A course, ready to draw.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// The readings that there are.
    pub points: Vec<(f64, f64)>,
    /// The lines through them, one for each unbroken run.
    pub lines: Vec<Vec<(f64, f64)>>,
    /// Where one is missing.
    pub gaps: Vec<f64>,
    /// What they are compared with, in the same way.
    pub others: Vec<(f64, f64)>,
    /// The lines through those.
    pub other_lines: Vec<Vec<(f64, f64)>>,
    /// The upper edge of the band in which a reading is in order.
    pub limit: Option<f64>,
    /// The greatest number of the scale.
    pub top: u64,
}

/// Lays out a course on a scale that holds all of it.
#[allow(clippy::cast_precision_loss, clippy::cast_possible_truncation, clippy::cast_sign_loss)]
pub fn chart(course: &Course, axis: Axis) -> Chart {
    let values = course.readings.iter().chain(&course.other).filter_map(|reading| reading.value);
    let highest = values.chain(course.limit).fold(2.0_f64, f64::max).ceil() as u64;
    let step = match highest {
        0..=4 => 1,
        5..=8 => 2,
        9..=20 => 5,
        _ => 10 * highest.div_ceil(40),
    };
    let top = course.top.unwrap_or_else(|| highest.div_ceil(step) * step);
    let y = |value: f64| BOTTOM - (BOTTOM - TOP) * value / top as f64;
    let place = |reading: &Reading| reading.value.map(|value| (axis.x(reading.at), y(value)));
    let runs = |readings: &[Reading]| -> Vec<Vec<(f64, f64)>> {
        let runs = readings.split(|reading| reading.value.is_none());
        runs.map(|run| run.iter().filter_map(place).collect::<Vec<_>>())
            .filter(|run| !run.is_empty())
            .collect()
    };
    let lines = match course.shape {
        Shape::Line => runs(&course.readings),
        Shape::Steps => vec![steps(&runs(&course.readings).concat())],
    };
    let missing = course.readings.iter().filter(|reading| reading.value.is_none());
    Chart {
        points: course.readings.iter().filter_map(place).collect(),
        lines,
        gaps: missing.map(|reading| axis.x(reading.at)).collect(),
        others: course.other.iter().filter_map(place).collect(),
        other_lines: runs(&course.other),
        limit: course.limit.map(y),
        top,
    }
}

/// From nought at the left over each rise to the right end.
fn steps(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut at = (LEFT, BOTTOM);
    let mut line = vec![at];
    for (x, y) in points {
        line.extend([(*x, at.1), (*x, *y)]);
        at = (*x, *y);
    }
    line.push((RIGHT, at.1));
    line
}

/// Where the rounds lie, each with whether there is room for its numeral.
pub fn marks(rounds: &[Span], axis: Axis) -> Vec<(f64, bool)> {
    let mut last = f64::NEG_INFINITY;
    let mark = |at: &Span| {
        let x = axis.x(*at);
        let room = x - last >= APART;
        if room {
            last = x;
        }
        (x, room)
    };
    rounds.iter().map(mark).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(minutes: u64, tenths: u32) -> Reading {
        Reading { at: Span::minutes(minutes), value: Some(f64::from(tenths) / 10.0) }
    }

    fn inside((x, y): &(f64, f64)) -> bool {
        (LEFT..=RIGHT).contains(x) && (TOP..=BOTTOM).contains(y)
    }

    #[test]
    fn all_of_it_lies_inside_the_plot() {
        for slowest in [1, 20, 62, 99, 250, 1_200] {
            for shape in [Shape::Line, Shape::Steps] {
                let readings = vec![read(0, slowest), read(61, 34), read(122, 12)];
                let other = vec![read(0, 16), read(122, 300)];
                let course =
                    Course { readings, other, limit: Some(3.0), shape, ..Course::default() };
                let axis = Axis::over(course.readings.iter().map(|reading| reading.at));
                let chart = chart(&course, axis);
                let all = chart.points.iter().chain(&chart.others);
                assert!(all.chain(chart.lines.iter().flatten()).all(inside));
                assert!((TOP..=BOTTOM).contains(&chart.limit.unwrap()));
            }
        }
    }

    #[test]
    fn slower_is_higher_and_later_is_further() {
        let readings = vec![read(0, 62), read(60, 31)];
        let course = Course { readings, ..Course::default() };
        let chart = chart(&course, Axis::over([]));
        assert!(chart.points[0].0 < chart.points[1].0);
        assert!(chart.points[0].1 < chart.points[1].1);
    }

    #[test]
    fn a_reading_that_is_missing_breaks_the_line() {
        let missing = Reading { at: Span::minutes(61), value: None };
        let readings = vec![read(0, 62), missing, read(122, 31), read(180, 20)];
        let course = Course { readings, ..Course::default() };
        let axis = Axis::over([Span::minutes(180)]);
        let chart = chart(&course, axis);
        assert_eq!(chart.lines.iter().map(Vec::len).collect::<Vec<_>>(), [1, 2]);
        assert_eq!((chart.points.len(), chart.gaps), (3, vec![axis.x(Span::minutes(61))]));
    }

    #[test]
    fn every_course_ends_where_the_axis_does() {
        let axis = Axis::over([Span::minutes(30), Span::minutes(190)]);
        assert_eq!(axis.end, Span::minutes(190));
        assert_eq!((axis.x(Span::ZERO), axis.x(axis.end)), (LEFT, RIGHT));
        let sums = vec![read(8, 5_000), read(70, 9_000)];
        let course = Course { readings: sums, shape: Shape::Steps, ..Course::default() };
        let line = chart(&course, axis).lines.concat();
        assert_eq!(line.first(), Some(&(LEFT, BOTTOM)));
        assert_eq!(line.last().map(|(x, _)| *x), Some(RIGHT));
        assert!(line.windows(2).all(|pair| pair[0].1 >= pair[1].1), "a sum never falls");
    }

    #[test]
    fn numerals_that_would_lie_on_each_other_are_left_out() {
        let axis = Axis::over([Span::hours(12)]);
        let rounds = [8, 12, 70, 720].map(Span::minutes);
        let shown: Vec<bool> = marks(&rounds, axis).into_iter().map(|(_, room)| room).collect();
        assert_eq!(shown, [true, false, true, true]);
    }
}
