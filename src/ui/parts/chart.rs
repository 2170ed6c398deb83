//! Readings over time as coordinates. For drawing only: floats of pixels.

use crate::measure::Span;

/// One reading, in a unit that the whole chart shares.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Reading {
    /// When, counted from a common start.
    pub at: Span,
    /// What was read, never negative.
    pub value: f64,
}

/// Width of the drawing.
pub const WIDTH: f64 = 312.0;
/// Height of the drawing.
pub const HEIGHT: f64 = 148.0;
/// Left of the plot stand the numbers.
pub const LEFT: f64 = 26.0;
/// The right end of the plot; past it there is room for half a label.
pub const RIGHT: f64 = 300.0;
/// The top of the plot; above it stand the rounds' numerals.
pub const TOP: f64 = 20.0;
/// The bottom of the plot: nought. Under it stands the time.
pub const BOTTOM: f64 = 126.0;

/// A chart of readings, ready to draw.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// The readings.
    pub points: Vec<(f64, f64)>,
    /// The rounds.
    pub rounds: Vec<f64>,
    /// The upper edge of the band in which a reading is in order.
    pub limit: Option<f64>,
    /// What the readings are compared with.
    pub other: Option<f64>,
    /// Lines across: where, and at which value.
    pub lines: Vec<(f64, u64)>,
    /// The time at the right end.
    pub end: Span,
}

/// Lays out readings, rounds, the limit and what they are compared with on one scale that holds
/// them all.
#[allow(clippy::cast_precision_loss, clippy::cast_possible_truncation, clippy::cast_sign_loss)]
pub fn chart(
    readings: &[Reading],
    rounds: &[Span],
    limit: Option<f64>,
    other: Option<f64>,
) -> Chart {
    let millis = |span: Span| span.as_millis() as f64;
    let values = readings.iter().map(|reading| reading.value);
    let highest = values.chain(limit).chain(other).fold(2.0_f64, f64::max).ceil() as u64;
    let step = match highest {
        0..=4 => 1,
        5..=8 => 2,
        9..=20 => 5,
        _ => 10 * highest.div_ceil(40),
    };
    let top = highest.div_ceil(step) * step;
    let end = readings.iter().map(|reading| reading.at).chain(rounds.iter().copied()).max();
    // One hour at least: with a single reading there is still a way ahead to see.
    let end = end.unwrap_or_default().max(Span::hours(1));
    let x = |at: Span| LEFT + (RIGHT - LEFT) * millis(at) / millis(end);
    let y = |value: f64| BOTTOM - (BOTTOM - TOP) * value / top as f64;
    Chart {
        points: readings.iter().map(|reading| (x(reading.at), y(reading.value))).collect(),
        rounds: rounds.iter().map(|&at| x(at)).collect(),
        limit: limit.map(y),
        other: other.map(y),
        lines: (0..=top / step).map(|n| (y((n * step) as f64), n * step)).collect(),
        end,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(minutes: u64, tenths: u32) -> Reading {
        Reading { at: Span::minutes(minutes), value: f64::from(tenths) / 10.0 }
    }

    #[test]
    fn all_of_it_lies_inside_the_plot() {
        for slowest in [1, 20, 62, 99, 250, 1_200] {
            let readings = [read(0, slowest), read(61, 34), read(122, 12)];
            let rounds = [Span::minutes(5), Span::minutes(65)];
            let chart = chart(&readings, &rounds, Some(3.0), Some(1.6));
            for (x, y) in chart.points {
                assert!((LEFT..=RIGHT).contains(&x) && (TOP..=BOTTOM).contains(&y));
            }
            assert!(chart.rounds.iter().all(|x| (LEFT..=RIGHT).contains(x)));
            assert!((TOP..=BOTTOM).contains(&chart.limit.unwrap()));
            assert!((2..=6).contains(&chart.lines.len()), "{slowest}: {:?}", chart.lines);
        }
    }

    #[test]
    fn slower_is_higher_and_later_is_further() {
        let chart = chart(&[read(0, 62), read(60, 31)], &[], Some(3.0), None);
        assert!(chart.points[0].0 < chart.points[1].0);
        assert!(chart.points[0].1 < chart.points[1].1);
    }
}
