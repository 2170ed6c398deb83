//! A way to a strength, before it is known how much of it is wanted; and carrying it out.

use super::ask::{Ask, Wanted};
use super::bench::Bench;
use super::limits::Limits;
use super::movement::Movement;
use crate::measure::{Strength, Units, Volume};
use crate::protocol::plan_rank::MOST_SYRINGES;

/// Volumes as counts of the syringe's marks.
///
/// A vial gets `diluent`. A syringe gets the first of `lead` from the vial and is made up, then
/// expelled to and made up to each further one; at last `k` times the proportion `part` is made up
/// to `k` times `whole`. Without `lead` that last proportion starts from the vial itself. If part
/// and whole are the same, nothing is made up: the vial has the strength itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Recipe {
    pub diluent: u64,
    pub lead: Vec<(u64, u64)>,
    pub part: u64,
    pub whole: u64,
    /// `k` of a full syringe.
    pub full: u64,
    /// Least `k` that is measured well.
    pub least: u64,
}

/// Why a recipe ended before enough was made; what was made until then.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Short {
    /// No vial was left.
    OfVials(Wanted),
    /// No more syringes are believed.
    OfSyringes(Wanted),
    /// The bench refused a movement: a mistake of the recipe, which is then passed over.
    Undoable,
}

impl Recipe {
    /// The vial dissolved at the strength itself.
    pub(super) fn of_whole_vial(diluent: u64, syringe_marks: u64) -> Self {
        Self { diluent, lead: Vec::new(), part: 1, whole: 1, full: syringe_marks, least: 1 }
    }

    /// Whether the vial has the strength itself.
    pub(super) fn is_whole_vial(&self) -> bool {
        self.part == self.whole
    }

    /// The strength that it gives.
    pub(super) fn strength(&self, ask: &Ask) -> Option<Strength> {
        let (mut over, mut under) = (ask.vial.units.raw(), self.diluent);
        for &(from, to) in self.lead.iter().chain([&(self.part, self.whole)]) {
            over = over.checked_mul(from)?;
            under = under.checked_mul(to)?;
        }
        let under = under.checked_mul(ask.syringe.interval().raw())?;
        Strength::of(Units::milli(over), Volume::ul(under))
    }

    /// Marks of stock for a fill of `k`.
    fn stock_for(&self, k: u64) -> u64 {
        self.lead.first().map_or(k * self.part, |first| first.0)
    }

    /// The largest `k` that `stock` marks suffice for; 0 if none is measured well.
    fn most_from(&self, stock: u64) -> u64 {
        let k = match self.lead.first() {
            Some(first) if stock >= first.0 => self.full,
            Some(_) => 0,
            None => (stock / self.part).min(self.full),
        };
        if k < self.least { 0 } else { k }
    }

    /// Marks of finished volume that one vial gives.
    pub(super) fn yield_of_vial(&self) -> u64 {
        let fills = self.diluent / self.stock_for(self.full).max(1);
        let rest = self.diluent % self.stock_for(self.full).max(1);
        (fills * self.full + self.most_from(rest)) * self.whole
    }

    /// About how many movements `marks` of finished volume take. Exact but for part-filled
    /// syringes.
    pub(super) fn movements_for(&self, marks: u64, syringe_marks: u64) -> u64 {
        let vials = marks.div_ceil(self.yield_of_vial().max(1));
        let fills = marks.div_ceil((self.full * self.whole).max(1));
        let strokes = self.diluent.div_ceil(syringe_marks.max(1));
        let of_a_fill = if self.is_whole_vial() { 2 } else { 3 + 2 * self.lead.len() as u64 };
        vials.saturating_mul(2 * strokes).saturating_add(fills.saturating_mul(of_a_fill))
    }

    /// Draws that do not end on a round mark, in a vial's diluent and a full syringe.
    pub(super) fn odd_marks(&self, step: u64) -> usize {
        let own = [self.diluent, self.full * self.part, self.full * self.whole];
        let lead = self.lead.iter().flat_map(|&(from, to)| [from, to]);
        own.into_iter().chain(lead).filter(|marks| marks % step.max(1) != 0).count()
    }

    /// Does it until enough is made.
    pub(super) fn carry_out(&self, ask: &Ask, limits: &Limits) -> Result<Vec<Movement>, Short> {
        let strength = self.strength(ask).ok_or(Short::Undoable)?;
        let mut work = Work {
            recipe: self,
            ask,
            strength,
            bench: Bench::new(ask),
            movements: Vec::new(),
            first: 1,
        };
        while !work.bench.satisfied() {
            if work.bench.totals.syringes >= MOST_SYRINGES {
                return Err(Short::OfSyringes(work.reached()));
            }
            let filled = if self.is_whole_vial() { work.draw(limits)? } else { work.dilute()? };
            if !filled {
                work.open(limits)?;
            }
        }
        Ok(work.movements)
    }
}

/// A recipe being carried out.
struct Work<'a> {
    recipe: &'a Recipe,
    ask: &'a Ask,
    strength: Strength,
    bench: Bench<'a>,
    movements: Vec<Movement>,
    /// The first vial with something in it, or the next to be opened.
    first: u32,
}

impl Work<'_> {
    fn act(&mut self, movement: Movement) -> Result<(), Short> {
        self.bench.apply(movement).map_err(|_| Short::Undoable)?;
        self.movements.push(movement);
        Ok(())
    }

    fn volume(&self, marks: u64) -> Volume {
        self.ask.syringe.interval().times(marks)
    }

    fn marks(&self, volume: Volume) -> u64 {
        volume.fits(self.ask.syringe.interval())
    }

    fn reached(&self) -> Wanted {
        match self.ask.wanted {
            Wanted::Dose(_) => Wanted::Dose(self.bench.totals.delivered),
            Wanted::Volume(_) => Wanted::Volume(self.bench.totals.volume),
        }
    }

    /// Marks left in a vial.
    fn stock(&self, vial: u32) -> u64 {
        self.bench.vial(vial).map_or(0, |contents| self.marks(contents.volume))
    }

    /// The `k` that would make what is still missing.
    fn missing(&self) -> u64 {
        let totals = self.bench.totals;
        let volume = match self.ask.wanted {
            Wanted::Volume(wanted) => wanted.saturating_sub(totals.volume).raw(),
            Wanted::Dose(wanted) => {
                let units = u128::from(wanted.saturating_sub(totals.delivered).raw());
                let (over, under) = self.strength.into();
                let volume = (units * u128::from(under)).div_ceil(u128::from(over.max(1)));
                u64::try_from(volume).unwrap_or(u64::MAX)
            }
        };
        volume.div_ceil(self.volume(self.recipe.whole).raw().max(1)).max(1)
    }

    /// Dissolves the next vial, stroke by stroke.
    fn open(&mut self, limits: &Limits) -> Result<(), Short> {
        let vial = self.bench.totals.vials + 1;
        if vial > limits.vials {
            return Err(Short::OfVials(self.reached()));
        }
        let mut left = self.volume(self.recipe.diluent);
        while !left.is_zero() {
            let to = left.min(self.ask.syringe.capacity());
            self.act(Movement::DrawDiluent { to })?;
            self.act(Movement::Dissolve { vial })?;
            left = left.saturating_sub(to);
        }
        Ok(())
    }

    /// Fills one syringe from the vials as they are, the last of one and the first of the next
    /// together; whether there was anything to fill it with.
    fn draw(&mut self, limits: &Limits) -> Result<bool, Short> {
        let wanted = self.missing().min(self.recipe.full);
        while self.first < self.bench.totals.vials && self.stock(self.first) == 0 {
            self.first += 1;
        }
        // A vial cannot be opened with a syringe half full, so it is opened before.
        let mut there: u64 = (self.first..=self.bench.totals.vials).map(|v| self.stock(v)).sum();
        while there < wanted && self.bench.totals.vials < limits.vials {
            self.open(limits)?;
            there += self.stock(self.bench.totals.vials);
        }
        let full = wanted.min(there);
        let mut stands = 0;
        for vial in self.first..=self.bench.totals.vials {
            let more = self.stock(vial).min(full - stands);
            if more > 0 {
                stands += more;
                self.act(Movement::DrawFromVial { vial, to: self.volume(stands) })?;
            }
        }
        if stands > 0 {
            self.act(Movement::Finish { syringe: self.bench.totals.syringes + 1 })?;
        }
        Ok(stands > 0)
    }

    /// Fills one syringe with stock made up; whether there was stock for it.
    fn dilute(&mut self) -> Result<bool, Short> {
        let vial = self.bench.totals.vials;
        let most = self.recipe.most_from(self.stock(vial));
        if most == 0 {
            return Ok(false);
        }
        let k = self.rounded(self.missing().clamp(self.recipe.least, most), most);
        let last = (k * self.recipe.part, k * self.recipe.whole);
        let steps = self.recipe.lead.iter().copied().chain([last]);
        for (place, (from, to)) in steps.enumerate() {
            let from = self.volume(from);
            self.act(if place == 0 {
                Movement::DrawFromVial { vial, to: from }
            } else {
                Movement::Expel { to: from }
            })?;
            self.act(Movement::MakeUp { to: self.volume(to) })?;
        }
        self.act(Movement::Finish { syringe: self.bench.totals.syringes + 1 })?;
        Ok(true)
    }

    /// The next `k` whose marks are round, if that is not more than twice as much.
    fn rounded(&self, k: u64, most: u64) -> u64 {
        let step = self.ask.syringe.round_step();
        (k..=most.min(k.saturating_mul(2)))
            .find(|k| {
                self.volume(k * self.recipe.part).on_mark(step)
                    && self.volume(k * self.recipe.whole).on_mark(step)
            })
            .unwrap_or(k)
    }
}

#[cfg(test)]
mod tests {
    use super::super::limits::sensible;
    use super::super::{Syringe, Vial};
    use super::*;
    use Movement::{Dissolve, DrawDiluent, DrawFromVial, Expel, Finish, MakeUp};

    fn ask(units: u64, target: u64, dose: u64) -> Ask {
        let vial = Vial { units: Units::whole(units), holds: Volume::ml(3) };
        let syringe = Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap();
        Ask::dose(vial, Some(2), Strength::per_ml(target), Units::whole(dose), syringe)
    }

    fn ul(volume: u64) -> Volume {
        Volume::ul(volume)
    }

    fn stock(part: u64, whole: u64, full: u64, least: u64) -> Recipe {
        Recipe { diluent: 100, lead: Vec::new(), part, whole, full, least }
    }

    fn done(recipe: &Recipe, ask: &Ask) -> Result<Vec<Movement>, Short> {
        recipe.carry_out(ask, &sensible(ask).unwrap())
    }

    fn of_fill(movements: &[Movement], syringe: u32) -> Vec<Movement> {
        let mut fills = movements.split_inclusive(|m| matches!(m, Finish { .. }));
        fills.nth(syringe as usize - 1).unwrap().to_vec()
    }

    #[test]
    fn the_strength_is_the_product_of_all_steps() {
        let ask = ask(1500, 15, 15);
        assert_eq!(stock(1, 10, 10, 9).strength(&ask), Some(Strength::per_ml(150)));
        let stepwise = Recipe { lead: vec![(10, 100)], ..stock(1, 10, 10, 9) };
        assert_eq!(stepwise.strength(&ask), Some(Strength::per_ml(15)));
        let whole = Recipe::of_whole_vial(300, 100);
        assert_eq!(whole.strength(&ask), Some(Strength::per_ml(500)));
    }

    #[test]
    fn a_vial_yields_its_full_syringes_and_what_the_rest_is_good_for() {
        assert_eq!(Recipe::of_whole_vial(250, 100).yield_of_vial(), 250);
        // Three times 0.3 mL, and 0.1 mL makes 0.3 mL more; the last 0.01 mL is lost.
        assert_eq!(stock(3, 10, 10, 3).yield_of_vial(), 330);
        // A rest too small to be measured well is lost.
        assert_eq!(stock(3, 10, 10, 4).yield_of_vial(), 300);
        let stepwise = Recipe { lead: vec![(30, 100)], ..stock(1, 10, 10, 9) };
        assert_eq!(stepwise.yield_of_vial(), 300);
    }

    #[test]
    fn movements_are_foreseen_for_full_syringes() {
        let ask = ask(1500, 500, 3_000);
        let whole = Recipe::of_whole_vial(300, 100);
        let movements = done(&whole, &ask).unwrap();
        assert_eq!(movements.len() as u64, whole.movements_for(600, 100));
        let ask = self::ask(1500, 15, 30);
        let stepwise = Recipe { lead: vec![(10, 100)], ..stock(1, 10, 10, 9) };
        let movements = done(&stepwise, &ask).unwrap();
        assert_eq!(movements.len() as u64, stepwise.movements_for(200, 100));
    }

    #[test]
    fn odd_marks_are_those_between_the_round_ones() {
        assert_eq!(stock(3, 9, 10, 3).odd_marks(10), 0);
        assert_eq!(stock(3, 9, 11, 3).odd_marks(10), 2);
        let stepwise = Recipe { lead: vec![(15, 100)], ..stock(1, 10, 10, 9) };
        assert_eq!(stepwise.odd_marks(10), 1);
    }

    #[test]
    fn a_syringe_is_filled_from_two_vials_opened_before() {
        let whole = Recipe::of_whole_vial(50, 100);
        let movements = done(&whole, &ask(150, 300, 290)).unwrap();
        let expected = [
            DrawDiluent { to: ul(500) },
            Dissolve { vial: 1 },
            DrawDiluent { to: ul(500) },
            Dissolve { vial: 2 },
            DrawFromVial { vial: 1, to: ul(500) },
            DrawFromVial { vial: 2, to: ul(970) },
            Finish { syringe: 1 },
        ];
        assert_eq!(movements, expected);
    }

    #[test]
    fn a_stroke_is_never_larger_than_the_syringe() {
        let movements = done(&Recipe::of_whole_vial(250, 100), &ask(1500, 600, 1)).unwrap();
        let strokes: Vec<u64> = movements
            .iter()
            .filter_map(|m| if let DrawDiluent { to } = m { Some(to.raw()) } else { None })
            .collect();
        assert_eq!(strokes, [1_000, 1_000, 500]);
    }

    #[test]
    fn the_last_syringe_holds_no_more_than_is_missing() {
        let movements = done(&stock(2, 5, 20, 5), &ask(1500, 600, 1_500)).unwrap();
        let last =
            [DrawFromVial { vial: 1, to: ul(200) }, MakeUp { to: ul(500) }, Finish { syringe: 3 }];
        assert_eq!(of_fill(&movements, 3), last);
    }

    #[test]
    fn a_little_more_is_made_for_a_round_mark() {
        // 30 units at 300 are 0.1 mL, and 0.09 mL of stock the least: 0.1 mL is as easy.
        let movements = done(&stock(1, 5, 20, 9), &ask(1500, 300, 30)).unwrap();
        assert_eq!(
            movements[2..4],
            [DrawFromVial { vial: 1, to: ul(100) }, MakeUp { to: ul(500) }]
        );
        // But not three times as much.
        let movements = done(&stock(3, 10, 10, 3), &ask(1500, 450, 30)).unwrap();
        assert_eq!(movements[2..4], [DrawFromVial { vial: 1, to: ul(90) }, MakeUp { to: ul(300) }]);
    }

    #[test]
    fn a_step_expels_what_is_too_much() {
        let stepwise = Recipe { lead: vec![(10, 100)], ..stock(1, 10, 10, 9) };
        let movements = done(&stepwise, &ask(1500, 15, 15)).unwrap();
        let fill = [
            DrawFromVial { vial: 1, to: ul(100) },
            MakeUp { to: ul(1_000) },
            Expel { to: ul(100) },
            MakeUp { to: ul(1_000) },
            Finish { syringe: 1 },
        ];
        assert_eq!(movements[2..], fill);
    }

    #[test]
    fn what_runs_out_says_what_was_made() {
        let whole = Recipe::of_whole_vial(300, 100);
        let made = Wanted::Dose(Units::whole(3_000));
        assert_eq!(done(&whole, &ask(1500, 500, 3_001)), Err(Short::OfVials(made)));
        let mut weak = ask(1500, 1, 101);
        let three = Recipe { lead: vec![(10, 100), (10, 100)], ..stock(1, 1, 1, 1) };
        weak.vials = None;
        let recipe = Recipe { part: 1, whole: 10, full: 10, least: 9, diluent: 150, ..three };
        let made = Wanted::Dose(Units::whole(100));
        assert_eq!(done(&recipe, &weak), Err(Short::OfSyringes(made)));
        let volume = Ask { wanted: Wanted::Volume(Volume::ml(101)), ..weak };
        let made = Wanted::Volume(Volume::ml(100));
        assert_eq!(done(&recipe, &volume), Err(Short::OfSyringes(made)));
    }
}
