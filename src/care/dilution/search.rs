//! Every recipe for a strength that falls on the marks.
//!
//! A vial of `U` units in `S` of diluent must be thinned by `target × S / U`. That ratio is looked
//! for as a quotient of two marks, exactly where it is one, and else as near as the marks come; and
//! where its smaller mark is too small to be measured well, as a product of two or three quotients.

use super::ask::{Ask, Impossible};
use super::limits::{Limits, Nearness, off};
use super::recipe::Recipe;
use crate::measure::{Strength, Volume};
use crate::protocol::plan_rank::CLOSE;

/// A recipe with how near it comes.
pub(super) struct Found {
    pub recipe: Recipe,
    pub nearness: Nearness,
}

/// The recipes near enough; or the nearest strength that there is a recipe for.
pub(super) fn search(ask: &Ask, limits: &Limits) -> Result<Vec<Found>, Impossible> {
    let barrel = Barrel::of(ask);
    let mut recipes = barrel.whole_vials(ask, limits);
    for stock in barrel.stocks(limits) {
        if let Some(ratio) = Ratio::of(ask, stock.volume) {
            barrel.thin(stock, ratio, &mut recipes);
        }
    }
    let mut nearest: Option<(u64, Strength)> = None;
    let mut found = Vec::new();
    for recipe in recipes {
        let Some(strength) = recipe.strength(ask) else { continue };
        let distance = off(strength, ask.target);
        // Only what may be asked for again is named as the nearest.
        if strength <= limits.strongest && nearest.is_none_or(|(least, _)| distance < least) {
            nearest = Some((distance, strength));
        }
        if let Some(nearness) = Nearness::of(strength, ask) {
            found.push(Found { recipe, nearness });
        }
    }
    if !found.is_empty() {
        return Ok(found);
    }
    let weakest = barrel.weakest(limits).strength(ask);
    Err(match (weakest, nearest) {
        (Some(weakest), _) if ask.target < weakest => Impossible::TooWeak { weakest },
        (Some(weakest), None) => Impossible::OffMarks { nearest: weakest },
        (_, Some((_, nearest))) => Impossible::OffMarks { nearest },
        // A recipe always has a strength; were there none, nothing at all could be said.
        (None, None) => Impossible::NoStrength,
    })
}

/// A volume of diluent to look at.
#[derive(Clone, Copy)]
struct StockVolume {
    volume: Volume,
    marks: u64,
    /// Whole syringes, halves of one, or whole millilitres: worth a second step.
    round: bool,
}

/// How much a stock is to be thinned: a ratio below one, reduced.
#[derive(Clone, Copy)]
struct Ratio {
    over: u128,
    under: u128,
}

/// Binary places in which a ratio is compared with the quotients of all marks.
const PLACES: u32 = 40;

impl Ratio {
    /// `None` if the stock is no stronger than the target.
    fn of(ask: &Ask, stock: Volume) -> Option<Self> {
        let (units, volume): (u64, u64) = ask.target.into();
        let over = u128::from(units) * u128::from(stock.raw());
        let under = u128::from(volume) * u128::from(ask.vial.units.raw());
        (over < under).then(|| Self { over, under }.reduced())
    }

    /// What is left to do after thinning by `from / to`; `None` if nothing is.
    fn after(self, from: u64, to: u64) -> Option<Self> {
        let over = self.over.checked_mul(u128::from(to))?;
        let under = self.under.checked_mul(u128::from(from))?;
        (over < under).then(|| Self { over, under }.reduced())
    }

    fn reduced(self) -> Self {
        // Nearly always both fit the processor's own numbers, where dividing is quick.
        let shared = match (u64::try_from(self.over), u64::try_from(self.under)) {
            (Ok(mut a), Ok(mut b)) => {
                while b != 0 {
                    (a, b) = (b, a % b);
                }
                u128::from(a)
            }
            _ => {
                let (mut a, mut b) = (self.over, self.under);
                while b != 0 {
                    (a, b) = (b, a % b);
                }
                a
            }
        }
        .max(1);
        Self { over: self.over / shared, under: self.under / shared }
    }

    /// As a quotient of two counts up to `marks`.
    fn on_marks(self, marks: u64) -> Option<(u64, u64)> {
        let under = u64::try_from(self.under).ok().filter(|&under| under <= marks)?;
        Some((u64::try_from(self.over).ok()?, under))
    }

    /// In parts of two to the power of [`PLACES`]; below one, so it fits.
    fn parts(self) -> u64 {
        let parts = match self.over.checked_shl(PLACES).filter(|p| p >> PLACES == self.over) {
            Some(over) => over / self.under,
            None => self.over / (self.under >> PLACES).max(1),
        };
        u64::try_from(parts).unwrap_or(u64::MAX).min(1 << PLACES)
    }
}

/// The mark that thins `to` marks by `parts`, with how far it is off, in millionths.
fn nearest_mark(parts: u64, to: u64) -> (u64, u64) {
    let exact = parts * to;
    let mark = (exact + (1 << (PLACES - 1))) >> PLACES;
    let gap = (mark << PLACES).abs_diff(exact);
    (mark, gap / (exact / 1_000_000).max(1))
}

/// The syringe, in marks.
struct Barrel {
    marks: u64,
    /// The least that is measured well.
    least: u64,
    /// From one round mark to the next.
    step: u64,
    interval: Volume,
}

impl Barrel {
    fn of(ask: &Ask) -> Self {
        let syringe = ask.syringe;
        let interval = syringe.interval();
        Self {
            marks: syringe.marks(),
            least: syringe.least_draw().fits(interval),
            step: syringe.round_step().fits(interval).max(1),
            interval,
        }
    }

    /// Diluent that gives the vial the strength itself: on the mark, or the two marks around it.
    fn whole_vials(&self, ask: &Ask, limits: &Limits) -> Vec<Recipe> {
        let (units, volume): (u64, u64) = ask.target.into();
        let over = u128::from(ask.vial.units.raw()) * u128::from(volume);
        let under = u128::from(units) * u128::from(self.interval.raw());
        let below = over / under.max(1);
        let above = if over.is_multiple_of(under.max(1)) { below } else { below + 1 };
        let fits = limits.least_stock.fits(self.interval)..=limits.holds.fits(self.interval);
        let mut marks: Vec<u64> =
            [below, above].into_iter().filter_map(|marks| u64::try_from(marks).ok()).collect();
        marks.dedup();
        marks.retain(|marks| fits.contains(marks));
        marks.into_iter().map(|marks| Recipe::of_whole_vial(marks, self.marks)).collect()
    }

    /// Volumes of stock worth a look: within one stroke on about twenty to fifty marks; beyond it
    /// whole syringes and halves, up to four; and every whole millilitre.
    fn stocks(&self, limits: &Limits) -> Vec<StockVolume> {
        let apart = (1..=self.marks)
            .rev()
            .find(|apart| self.marks.is_multiple_of(*apart) && self.marks / apart >= 20)
            .filter(|_| self.marks > 50)
            .unwrap_or(1);
        let single = (1..=self.marks / apart).map(|n| (self.interval.times(n * apart), false));
        let half = if self.marks.is_multiple_of(2) { self.marks / 2 } else { self.marks };
        let strokes = (1..=4 * self.marks / half).map(|n| (self.interval.times(n * half), true));
        let millilitres = (1..=limits.holds.fits(Volume::ml(1))).map(|n| (Volume::ml(n), true));
        let ends = [(limits.least_stock, true), (limits.holds, true)];
        let mut stocks: Vec<StockVolume> = single
            .chain(strokes)
            .chain(millilitres)
            .chain(ends)
            .filter(|(volume, _)| volume.on_mark(self.interval))
            .filter(|(volume, _)| (limits.least_stock..=limits.holds).contains(volume))
            .map(|(volume, round)| StockVolume { volume, marks: volume.fits(self.interval), round })
            .collect();
        stocks.sort_by_key(|stock| (stock.marks, !stock.round));
        stocks.dedup_by_key(|stock| stock.marks);
        stocks
    }

    /// The recipes that thin a stock by `ratio`.
    fn thin(&self, stock: StockVolume, ratio: Ratio, recipes: &mut Vec<Recipe>) {
        let mut with = |lead: &[(u64, u64)], last: Last| {
            let drawn = lead.first().map_or(last.part * last.least, |first| first.0);
            if drawn <= stock.marks {
                recipes.push(Recipe {
                    diluent: stock.marks,
                    lead: lead.to_vec(),
                    part: last.part,
                    whole: last.whole,
                    full: last.full,
                    least: last.least,
                });
            }
        };
        let (direct, near) = self.last_steps(ratio);
        for last in direct {
            with(&[], last);
        }
        if near || !stock.round {
            return;
        }
        for (first, last) in self.two_steps(ratio) {
            with(&[(first, self.marks)], last);
        }
        // A third step only for what two cannot reach.
        let first = self.first_of_three(stock.marks);
        let reach = ratio.parts().saturating_mul(self.marks) / first.max(1);
        if nearest_mark(reach.min(1 << PLACES), self.marks).0 <= self.least
            && let Some(rest) = ratio.after(first, self.marks)
        {
            for (second, last) in self.two_steps(rest) {
                with(&[(first, self.marks), (second, self.marks)], last);
            }
        }
    }

    /// Single proportions for a ratio, and whether one of them comes close.
    fn last_steps(&self, ratio: Ratio) -> (Vec<Last>, bool) {
        if let Some((part, whole)) = ratio.on_marks(self.marks) {
            let exact = self.proportions(part, whole);
            let any = !exact.is_empty();
            return (exact, any);
        }
        let parts = ratio.parts();
        let candidates = (1..=self.marks)
            .map(|to| (nearest_mark(parts, to), to))
            .filter(|((from, _), to)| *from >= self.least && from < to);
        let mut nearest: Option<(u64, u64, u64)> = None;
        let mut roundest: Option<(usize, u64, u64)> = None;
        let mut fullest: Option<(u64, u64)> = None;
        let mut near = false;
        for ((from, gap), to) in candidates {
            let close = gap <= u64::from(CLOSE.0) * 1_000;
            near |= close;
            if nearest.is_none_or(|(least, ..)| gap <= least) {
                nearest = Some((gap, from, to));
            }
            let odd = self.odd(from) + self.odd(to);
            if close && roundest.is_none_or(|(least, ..)| odd <= least) {
                roundest = Some((odd, from, to));
            }
            fullest = Some((from, to));
        }
        let chosen = [nearest.map(|n| (n.1, n.2)), roundest.map(|r| (r.1, r.2)), fullest];
        let mut chosen: Vec<(u64, u64)> = chosen.into_iter().flatten().collect();
        chosen.dedup();
        let exactly = |(from, to)| {
            let ratio = Ratio { over: u128::from(from), under: u128::from(to) }.reduced();
            ratio.on_marks(self.marks).map(|(part, whole)| Last {
                part,
                whole,
                full: to / whole,
                least: self.least.div_ceil(part),
            })
        };
        (chosen.into_iter().filter_map(exactly).collect(), near)
    }

    /// A reduced proportion at its fullest, and at its fullest on round marks; nothing if it can
    /// only be drawn too small.
    fn proportions(&self, part: u64, whole: u64) -> Vec<Last> {
        let least = self.least.div_ceil(part.max(1));
        let most = self.marks / whole;
        let round = (least..=most).rev().find(|k| self.odd(k * part) + self.odd(k * whole) == 0);
        let mut full = vec![most];
        full.extend(round.filter(|&round| round != most));
        full.retain(|&full| full >= least);
        full.into_iter().map(|full| Last { part, whole, full, least }).collect()
    }

    /// A first draw that is made up to a full syringe, and the proportion that is left. The two
    /// best that are exact, by round marks and by volume; or the nearest.
    fn two_steps(&self, ratio: Ratio) -> Vec<(u64, Last)> {
        let mut exact: Vec<(u64, Last)> = Vec::new();
        let mut nearest: Option<(u64, u64, u64)> = None;
        for first in self.least..self.marks {
            let Some(rest) = ratio.after(first, self.marks) else { continue };
            if let Some((part, whole)) = rest.on_marks(self.marks) {
                exact.extend(self.proportions(part, whole).into_iter().map(|last| (first, last)));
            }
            let (from, gap) = nearest_mark(rest.parts(), self.marks);
            if (self.least..self.marks).contains(&from)
                && nearest.is_none_or(|(least, ..)| gap < least)
            {
                nearest = Some((gap, first, from));
            }
        }
        let volume = |last: &Last| last.full * last.whole;
        let odd = |first: u64, last: &Last| {
            self.odd(first) + self.odd(last.full * last.part) + self.odd(volume(last))
        };
        let roundest = exact
            .iter()
            .min_by_key(|(first, last)| (odd(*first, last), u64::MAX - volume(last), *first));
        let fullest = exact
            .iter()
            .min_by_key(|(first, last)| (u64::MAX - volume(last), odd(*first, last), *first));
        let mut best: Vec<(u64, Last)> = roundest.into_iter().chain(fullest).copied().collect();
        best.dedup();
        if best.is_empty() {
            let last = nearest.map(|(_, first, from)| {
                let least = self.least.min(from);
                (
                    first,
                    Last { part: from, whole: self.marks, full: 1, least: least.div_ceil(from) },
                )
            });
            best.extend(last);
        }
        best
    }

    /// The first of three draws: small, so that the other two are not, and round if it can be.
    fn first_of_three(&self, stock: u64) -> u64 {
        let round = self.least.next_multiple_of(self.step);
        if round < self.marks && round <= stock { round } else { self.least }
    }

    fn odd(&self, marks: u64) -> usize {
        usize::from(!marks.is_multiple_of(self.step))
    }

    /// The weakest that the vial and three steps give.
    fn weakest(&self, limits: &Limits) -> Recipe {
        let diluent = limits.holds.fits(self.interval);
        let drawn = self.first_of_three(diluent);
        if self.least >= self.marks {
            return Recipe::of_whole_vial(diluent, self.marks);
        }
        let least = (self.least, self.marks);
        let lead = vec![(drawn, self.marks), least];
        Recipe { diluent, lead, part: self.least, whole: self.marks, full: 1, least: 1 }
    }
}

/// The last proportion of a recipe; see [`Recipe`].
#[derive(Clone, Copy, PartialEq, Eq)]
struct Last {
    part: u64,
    whole: u64,
    full: u64,
    least: u64,
}
