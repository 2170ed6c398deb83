//! Every recipe for a strength that falls on the marks.
//!
//! A vial of `U` units in `S` of diluent must be thinned by `target × S / U`. That ratio is looked
//! for as a quotient of two marks, exactly where it is one, and else as near as the marks come; and
//! where its smaller mark is too small to be measured well, as a product of two or three quotients.

use super::ask::{Ask, Impossible};
use super::limits::{Limits, Nearness, off};
use super::ratio::Ratio;
use super::recipe::Recipe;
use crate::measure::order;
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
        if let Some(ratio) = thinning(ask, stock.volume) {
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

/// How much a stock in the vial is to be thinned; `None` if it is no stronger than the target.
fn thinning(ask: &Ask, stock: Volume) -> Option<Ratio> {
    let (units, volume): (u64, u64) = ask.target.into();
    let over = u128::from(units) * u128::from(stock.raw());
    let under = u128::from(volume) * u128::from(ask.vial.units.raw());
    part(Ratio::new(over, under)?)
}

/// What is left to do after thinning by `from / to`; `None` if nothing is.
fn after(ratio: Ratio, from: u64, to: u64) -> Option<Ratio> {
    part(ratio.times(to, from)?)
}

/// Reduced, if it thins at all.
fn part(ratio: Ratio) -> Option<Ratio> {
    ratio.is_part().then(|| ratio.reduced())
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
        order::by_key(&mut stocks, |stock| (stock.marks, !stock.round));
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
        if let Some(rest) = after(ratio, first, self.marks)
            && rest.parts().nearest_mark(self.marks).0 <= self.least
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
            .map(|to| (parts.nearest_mark(to), to))
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
        let exactly = |(from, to): (u64, u64)| {
            let ratio = Ratio::new(u128::from(from), u128::from(to))?.reduced();
            let (part, whole) = ratio.on_marks(self.marks)?;
            Some(Last { part, whole, full: to / whole, least: self.least.div_ceil(part) })
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
            let Some(rest) = after(ratio, first, self.marks) else { continue };
            if let Some((part, whole)) = rest.on_marks(self.marks) {
                exact.extend(self.proportions(part, whole).into_iter().map(|last| (first, last)));
            }
            let (from, gap) = rest.parts().nearest_mark(self.marks);
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
            let last = |from| Last { part: from, whole: self.marks, full: 1, least: 1 };
            best.extend(nearest.map(|(_, first, from)| (first, last(from))));
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

#[cfg(test)]
mod tests {
    use super::super::limits::sensible;
    use super::super::{Syringe, Vial};
    use super::*;
    use crate::measure::Units;

    fn ask(milli_per_ml: u64, marks: (u64, u64)) -> Ask {
        let vial = Vial { units: Units::whole(1500), holds: Volume::ml(3) };
        let syringe = Syringe::new(Volume::ul(marks.0), Volume::ul(marks.1)).unwrap();
        let target = Strength::of(Units::milli(milli_per_ml), Volume::ml(1)).unwrap();
        Ask::dose(vial, None, target, Units::whole(1), syringe)
    }

    const ONE_ML: (u64, u64) = (1_000, 10);

    fn found(ask: &Ask) -> Vec<Recipe> {
        let found = search(ask, &sensible(ask).unwrap()).unwrap();
        found.into_iter().map(|found| found.recipe).collect()
    }

    #[test]
    fn a_third_is_found_below_the_full_syringe() {
        let recipes = found(&ask(500_000, ONE_ML));
        let of_one_ml: Vec<&Recipe> = recipes.iter().filter(|r| r.diluent == 100).collect();
        // Full as far as the marks go, and on round marks.
        let full: Vec<u64> = of_one_ml.iter().map(|r| r.full).collect();
        assert_eq!(full, [33, 30]);
        assert!(of_one_ml.iter().all(|r| (r.part, r.whole, r.least) == (1, 3, 9)));
        assert!(recipes.contains(&Recipe::of_whole_vial(300, 100)));
    }

    #[test]
    fn between_two_marks_the_vial_gets_either() {
        // 1500 at 700 per mL are 2.142… mL.
        let recipes = found(&ask(700_000, ONE_ML));
        let whole: Vec<u64> =
            recipes.iter().filter(|r| r.is_whole_vial()).map(|r| r.diluent).collect();
        assert_eq!(whole, [214, 215]);
    }

    #[test]
    fn two_steps_are_taken_only_where_one_is_too_small() {
        let steps = |milli| -> Vec<usize> {
            let mut steps: Vec<usize> = found(&ask(milli, ONE_ML))
                .iter()
                .filter(|recipe| recipe.diluent == 100)
                .map(|recipe| recipe.lead.len())
                .collect();
            steps.dedup();
            steps
        };
        assert_eq!(steps(150_000), [0]);
        assert_eq!(steps(75_000), [1]);
        assert_eq!(steps(15_000), [1]);
        assert_eq!(steps(1_500), [2]);
    }

    #[test]
    fn every_recipe_starts_from_what_the_vial_has() {
        let mut ask = ask(15_000, ONE_ML);
        ask.vial.holds = Volume::ul(150);
        for recipe in found(&ask) {
            let first = recipe.lead.first().map_or(recipe.part * recipe.least, |first| first.0);
            assert!(first <= recipe.diluent && recipe.diluent <= 15, "{recipe:?}");
        }
    }

    #[test]
    fn stocks_are_few_on_marks_and_within_the_vial() {
        for syringe in Syringe::common() {
            let mut ask = ask(500_000, ONE_ML);
            ask.syringe = syringe;
            let limits = sensible(&ask).unwrap();
            let stocks = Barrel::of(&ask).stocks(&limits);
            assert!((1..=64).contains(&stocks.len()), "{}", stocks.len());
            for stock in &stocks {
                assert!(stock.volume.on_mark(syringe.interval()));
                assert!((limits.least_stock..=limits.holds).contains(&stock.volume));
            }
            assert!(stocks.iter().any(|stock| stock.volume == Volume::ml(1) && stock.round));
            assert!(stocks.windows(2).all(|pair| pair[0].marks < pair[1].marks));
        }
    }
}
