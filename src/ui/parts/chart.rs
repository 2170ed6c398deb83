//! Refill over time as coordinates. For drawing only: floats of pixels.

use crate::measure::Span;

/// One reading of the refill time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Look {
    /// When, counted from a common start.
    pub at: Span,
    /// The refill time.
    pub refill: Span,
}

/// Width of the drawing.
pub const WIDTH: f64 = 312.0;
/// Height of the drawing.
pub const HEIGHT: f64 = 148.0;
/// Left of the plot stand the seconds.
pub const LEFT: f64 = 26.0;
/// The right end of the plot; past it there is room for half a label.
pub const RIGHT: f64 = 300.0;
/// The top of the plot; above it stand the rounds' numerals.
pub const TOP: f64 = 20.0;
/// The bottom of the plot: no seconds. Under it stands the time.
pub const BOTTOM: f64 = 126.0;

/// A chart of looks, ready to draw.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// The looks.
    pub points: Vec<(f64, f64)>,
    /// The rounds.
    pub rounds: Vec<f64>,
    /// The upper edge of the band in which a refill is in order.
    pub limit: f64,
    /// The other side's refill.
    pub other: Option<f64>,
    /// Lines across: where, and how many seconds.
    pub lines: Vec<(f64, u64)>,
    /// The time at the right end.
    pub end: Span,
}

/// Lays out looks, rounds, the limit and the other side on one scale that holds them all.
#[allow(clippy::cast_precision_loss)]
pub fn chart(looks: &[Look], rounds: &[Span], limit: Span, other: Option<Span>) -> Chart {
    let millis = |span: Span| span.as_millis() as f64;
    let highest = looks.iter().map(|look| look.refill).chain([limit]).chain(other).max();
    let seconds = highest.unwrap_or_default().as_millis().div_ceil(1_000).max(2);
    let step = match seconds {
        0..=4 => 1,
        5..=8 => 2,
        9..=20 => 5,
        _ => 10 * seconds.div_ceil(40),
    };
    let top = seconds.div_ceil(step) * step;
    let end = looks.iter().map(|look| look.at).chain(rounds.iter().copied()).max();
    // One hour at least: with a single look there is still a way ahead to see.
    let end = end.unwrap_or_default().max(Span::hours(1));
    let x = |at: Span| LEFT + (RIGHT - LEFT) * millis(at) / millis(end);
    let y = |refill: Span| BOTTOM - (BOTTOM - TOP) * millis(refill) / (top * 1_000) as f64;
    Chart {
        points: looks.iter().map(|look| (x(look.at), y(look.refill))).collect(),
        rounds: rounds.iter().map(|&at| x(at)).collect(),
        limit: y(limit),
        other: other.map(y),
        lines: (0..=top / step).map(|n| (y(Span::seconds(n * step)), n * step)).collect(),
        end,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn look(minutes: u64, tenths: u64) -> Look {
        Look { at: Span::minutes(minutes), refill: Span::millis(tenths * 100) }
    }

    #[test]
    fn all_of_it_lies_inside_the_plot() {
        for slowest in [1, 20, 62, 99, 250, 1_200] {
            let looks = [look(0, slowest), look(61, 34), look(122, 12)];
            let rounds = [Span::minutes(5), Span::minutes(65)];
            let chart = chart(&looks, &rounds, Span::seconds(3), Some(Span::millis(1_600)));
            for (x, y) in chart.points {
                assert!((LEFT..=RIGHT).contains(&x) && (TOP..=BOTTOM).contains(&y));
            }
            assert!(chart.rounds.iter().all(|x| (LEFT..=RIGHT).contains(x)));
            assert!((TOP..=BOTTOM).contains(&chart.limit));
            assert!((2..=6).contains(&chart.lines.len()), "{slowest}: {:?}", chart.lines);
        }
    }

    #[test]
    fn slower_is_higher_and_later_is_further() {
        let chart = chart(&[look(0, 62), look(60, 31)], &[], Span::seconds(3), None);
        assert!(chart.points[0].0 < chart.points[1].0);
        assert!(chart.points[0].1 < chart.points[1].1);
    }
}
