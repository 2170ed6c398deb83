//! The bench: one syringe in the hand, the opened vials, the syringes set aside.
//!
//! Each movement of the plunger is done here and nowhere else, so a plan can hold nothing that a
//! hand could not do: the planner tries its ways on the bench, a stored plan is walked on it when
//! it is read, and the screen draws what it shows.

use super::ask::{Ask, Wanted};
use super::movement::{Change, Contents, Movement, Stage, Totals};
use super::spread::{Stock, Trace};
use crate::measure::{Units, Volume};
use std::fmt;

/// Why a list of movements is no plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Broken {
    /// The plunger would stop between marks, past the last, or on the wrong side.
    NotThatMark,
    /// The movement makes no sense at this point.
    OutOfOrder,
    /// There is no such vial, or not that much in it.
    NotInVial,
    /// The vial would overflow.
    VialOverfull,
    /// Two strengths would come together, or the syringes would not be alike.
    UnlikeStrengths,
    /// Nothing could be said about the strength any more.
    Unmeasurable,
    /// It ends with less than was wanted, or with something still in the hand.
    Unfinished,
    /// The ask itself is one that is always refused.
    NoSuchAsk,
}

/// For stored data; a screen never shows it.
impl fmt::Display for Broken {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self:?}")
    }
}

/// An opened vial.
#[derive(Clone, Copy, Debug)]
struct Opened {
    contents: Contents,
    stock: Stock,
    drawn_from: bool,
}

/// The state between two movements.
#[derive(Clone, Debug)]
pub(super) struct Bench<'a> {
    ask: &'a Ask,
    vials: Vec<Opened>,
    hand: Contents,
    /// Where the strength in the hand comes from; `None` while no units are in it.
    trace: Option<Trace>,
    /// The syringes set aside.
    pub(super) filled: Vec<Contents>,
    /// What all of them have in common.
    pub(super) outcome: Option<Trace>,
    /// Sums so far.
    pub(super) totals: Totals,
}

impl<'a> Bench<'a> {
    pub(super) fn new(ask: &'a Ask) -> Self {
        Self {
            ask,
            vials: Vec::new(),
            hand: Contents::EMPTY,
            trace: None,
            filled: Vec::new(),
            outcome: None,
            totals: Totals::default(),
        }
    }

    /// Whether what was wanted has been set aside.
    pub(super) fn satisfied(&self) -> bool {
        match self.ask.wanted {
            Wanted::Dose(units) => self.totals.delivered >= units,
            Wanted::Volume(volume) => self.totals.volume >= volume,
        }
    }

    /// What is left in the vials.
    pub(super) fn left(&self) -> Units {
        self.vials.iter().map(|vial| vial.contents.units).sum()
    }

    /// The content of an opened vial.
    pub(super) fn vial(&self, number: u32) -> Option<Contents> {
        Some(self.vials.get(place(number)?)?.contents)
    }

    /// Whether nothing is in the hand.
    pub(super) fn empty_handed(&self) -> bool {
        self.hand == Contents::EMPTY
    }

    /// Does one movement.
    ///
    /// # Errors
    /// [`Broken`] if no hand could; the bench is then not to be used further.
    pub(super) fn apply(&mut self, movement: Movement) -> Result<Stage, Broken> {
        if movement.mark().is_some_and(|mark| !self.ask.syringe.has_mark(mark)) {
            return Err(Broken::NotThatMark);
        }
        let before = self.hand;
        let mut vial = None;
        match movement {
            Movement::DrawDiluent { to } => self.draw_diluent(to)?,
            Movement::Dissolve { vial: number } => vial = Some((number, self.dissolve(number)?)),
            Movement::DrawFromVial { vial: number, to } => {
                vial = Some((number, self.draw(number, to)?));
            }
            Movement::MakeUp { to } => self.make_up(to)?,
            Movement::Expel { to } => self.expel(to)?,
            Movement::Finish { syringe } => self.finish(syringe)?,
        }
        let syringe = Change { before, after: self.hand };
        Ok(Stage { movement, syringe, vial, totals: self.totals })
    }

    fn draw_diluent(&mut self, to: Volume) -> Result<(), Broken> {
        if !self.empty_handed() {
            return Err(Broken::OutOfOrder);
        }
        self.hand.volume = to;
        self.totals.diluent += to;
        Ok(())
    }

    fn dissolve(&mut self, number: u32) -> Result<Change, Broken> {
        if self.trace.is_some() || self.hand.volume.is_zero() {
            return Err(Broken::OutOfOrder);
        }
        let stroke = self.hand.volume;
        let slack = self.ask.syringe.tolerance(stroke);
        let before = if number == self.totals.vials + 1 {
            if self.ask.vials.is_some_and(|there| number > there) {
                return Err(Broken::NotInVial);
            }
            self.totals.vials = number;
            let contents = Contents { units: self.ask.vial.units, volume: Volume::ZERO };
            let stock = Stock::dry(contents.units);
            self.vials.push(Opened { contents, stock, drawn_from: false });
            contents
        } else {
            // A further stroke goes into the vial opened last, while it is still whole.
            let open = self.vials.last().filter(|open| !open.drawn_from);
            open.filter(|_| number == self.totals.vials).ok_or(Broken::OutOfOrder)?.contents
        };
        let open = self.vials.last_mut().ok_or(Broken::NotInVial)?;
        open.stock = open.stock.wetted(stroke, slack);
        open.contents = open.contents.with(self.hand);
        if open.contents.volume > self.ask.vial.holds {
            return Err(Broken::VialOverfull);
        }
        self.hand = Contents::EMPTY;
        Ok(Change { before, after: open.contents })
    }

    fn draw(&mut self, number: u32, to: Volume) -> Result<Change, Broken> {
        let diluent_in_hand = self.trace.is_none() && !self.hand.volume.is_zero();
        let open = place(number).and_then(|place| self.vials.get_mut(place));
        let open = open.filter(|_| !diluent_in_hand).ok_or(Broken::NotInVial)?;
        let more = to.checked_sub(self.hand.volume).filter(|more| !more.is_zero());
        let before = open.contents;
        let (taken, rest) =
            before.take(more.ok_or(Broken::NotThatMark)?).ok_or(Broken::NotInVial)?;
        let stock = open.stock.trace().ok_or(Broken::Unmeasurable)?;
        self.trace = Some(match self.trace {
            None => stock,
            Some(here) => here.joined(stock).ok_or(Broken::UnlikeStrengths)?,
        });
        open.contents = rest;
        open.drawn_from = true;
        self.hand = self.hand.with(taken);
        Ok(Change { before, after: rest })
    }

    fn make_up(&mut self, to: Volume) -> Result<(), Broken> {
        let from = self.hand.volume;
        let trace = self.trace.ok_or(Broken::OutOfOrder)?;
        let more = to.checked_sub(from).filter(|more| !more.is_zero());
        let more = more.ok_or(Broken::NotThatMark)?;
        self.trace = Some(trace.made_up(self.ask.syringe, from, to).ok_or(Broken::Unmeasurable)?);
        self.hand.volume = to;
        self.totals.diluent += more;
        Ok(())
    }

    fn expel(&mut self, to: Volume) -> Result<(), Broken> {
        let out = self.hand.volume.checked_sub(to).filter(|out| !out.is_zero());
        let out = out.filter(|_| self.trace.is_some()).ok_or(Broken::NotThatMark)?;
        let (gone, kept) = self.hand.take(out).ok_or(Broken::NotThatMark)?;
        self.totals.expelled += gone.units;
        self.hand = kept;
        Ok(())
    }

    fn finish(&mut self, syringe: u32) -> Result<(), Broken> {
        let trace = self.trace.take().ok_or(Broken::OutOfOrder)?;
        if syringe != self.totals.syringes + 1 {
            return Err(Broken::OutOfOrder);
        }
        self.outcome = Some(match self.outcome {
            None => trace,
            Some(others) => others.joined(trace).ok_or(Broken::UnlikeStrengths)?,
        });
        self.totals.syringes = syringe;
        self.totals.delivered += self.hand.units;
        self.totals.volume += self.hand.volume;
        self.filled.push(self.hand);
        self.hand = Contents::EMPTY;
        Ok(())
    }
}

/// Where the thing with this number, counted from 1, stands in a list.
fn place(number: u32) -> Option<usize> {
    usize::try_from(number.checked_sub(1)?).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::dilution::{Syringe, Vial};
    use crate::measure::Strength;
    use Movement::{Dissolve, DrawDiluent, DrawFromVial, Expel, Finish, MakeUp};

    const HALF: Volume = Volume::ul(500);
    const FULL: Volume = Volume::ml(1);

    fn ask() -> Ask {
        let vial = Vial { units: Units::whole(1500), holds: Volume::ml(2) };
        let syringe = Syringe::new(FULL, Volume::ul(10)).unwrap();
        Ask::dose(vial, Some(2), Strength::per_ml(750), Units::whole(750), syringe)
    }

    /// What the last of the movements comes to, on a bench where the others are done.
    fn last(movements: &[Movement]) -> Result<Stage, Broken> {
        let ask = ask();
        let mut bench = Bench::new(&ask);
        let (last, others) = movements.split_last().unwrap();
        for &movement in others {
            bench.apply(movement).unwrap();
        }
        bench.apply(*last)
    }

    const STOCK: [Movement; 2] = [DrawDiluent { to: FULL }, Dissolve { vial: 1 }];

    fn after_stock(more: &[Movement]) -> Result<Stage, Broken> {
        last(&[&STOCK, more].concat())
    }

    #[test]
    fn a_stage_shows_before_and_after() {
        let draw = DrawFromVial { vial: 1, to: HALF };
        let stage = after_stock(&[draw]).unwrap();
        let half = Contents { units: Units::whole(750), volume: HALF };
        let whole = Contents { units: Units::whole(1500), volume: FULL };
        assert_eq!(stage.movement, draw);
        assert_eq!(stage.syringe, Change { before: Contents::EMPTY, after: half });
        assert_eq!(stage.vial, Some((1, Change { before: whole, after: half })));
        let dissolved = last(&STOCK).unwrap();
        let dry = Contents { units: Units::whole(1500), volume: Volume::ZERO };
        assert_eq!(dissolved.vial, Some((1, Change { before: dry, after: whole })));
        assert_eq!(dissolved.totals.diluent, FULL);
    }

    #[test]
    fn what_is_expelled_is_counted() {
        let draw = DrawFromVial { vial: 1, to: HALF };
        let stage = after_stock(&[draw, Expel { to: Volume::ul(100) }]).unwrap();
        assert_eq!(stage.totals.expelled, Units::whole(600));
        assert_eq!(stage.syringe.after.units, Units::whole(150));
        let stage = after_stock(&[draw, MakeUp { to: FULL }, Finish { syringe: 1 }]).unwrap();
        let totals = stage.totals;
        assert_eq!((totals.delivered, totals.volume), (Units::whole(750), FULL));
        assert_eq!(totals.diluent, Volume::ul(1_500));
    }

    #[test]
    fn the_plunger_stops_on_marks_and_moves_the_right_way() {
        let draw = DrawFromVial { vial: 1, to: HALF };
        for wrong in [
            DrawDiluent { to: Volume::ul(505) },
            DrawDiluent { to: Volume::ul(1_010) },
            DrawDiluent { to: Volume::ZERO },
        ] {
            assert_eq!(last(&[wrong]), Err(Broken::NotThatMark));
        }
        for wrong in [DrawFromVial { vial: 1, to: HALF }, MakeUp { to: HALF }, Expel { to: HALF }] {
            assert_eq!(after_stock(&[draw, wrong]), Err(Broken::NotThatMark), "{wrong:?}");
        }
        let back = DrawFromVial { vial: 1, to: Volume::ul(400) };
        assert_eq!(after_stock(&[draw, back]), Err(Broken::NotThatMark));
    }

    #[test]
    fn each_movement_has_its_place() {
        let draw = DrawFromVial { vial: 1, to: HALF };
        let diluent = DrawDiluent { to: HALF };
        for wrong in [MakeUp { to: HALF }, Finish { syringe: 1 }, Dissolve { vial: 2 }] {
            assert_eq!(after_stock(&[wrong]), Err(Broken::OutOfOrder), "{wrong:?}");
        }
        assert_eq!(after_stock(&[diluent, diluent]), Err(Broken::OutOfOrder));
        assert_eq!(after_stock(&[draw, Dissolve { vial: 2 }]), Err(Broken::OutOfOrder));
        assert_eq!(after_stock(&[draw, Finish { syringe: 2 }]), Err(Broken::OutOfOrder));
        assert_eq!(after_stock(&[diluent, Dissolve { vial: 3 }]), Err(Broken::OutOfOrder));
        // No more diluent into a vial that has been drawn from.
        let drawn = [draw, Finish { syringe: 1 }, diluent, Dissolve { vial: 1 }];
        assert_eq!(after_stock(&drawn), Err(Broken::OutOfOrder));
    }

    #[test]
    fn nothing_comes_from_where_it_is_not() {
        let too_much = [DrawFromVial { vial: 1, to: HALF }, Finish { syringe: 1 }];
        let again = DrawFromVial { vial: 1, to: Volume::ul(510) };
        assert_eq!(after_stock(&[too_much[0], too_much[1], again]), Err(Broken::NotInVial));
        for vial in [0, 2] {
            assert_eq!(after_stock(&[DrawFromVial { vial, to: HALF }]), Err(Broken::NotInVial));
        }
        let second = [DrawDiluent { to: FULL }, Dissolve { vial: 2 }];
        let third = [second[0], second[1], second[0], Dissolve { vial: 3 }];
        assert_eq!(after_stock(&third), Err(Broken::NotInVial), "there are two vials");
        // Diluent under a draw would make a mixture that nobody measured.
        let mixed = [DrawDiluent { to: Volume::ul(100) }, DrawFromVial { vial: 1, to: HALF }];
        assert_eq!(after_stock(&mixed), Err(Broken::NotInVial));
    }

    #[test]
    fn a_vial_holds_what_it_holds() {
        let stroke = [DrawDiluent { to: FULL }, Dissolve { vial: 1 }];
        assert!(after_stock(&stroke).is_ok());
        let over = [stroke[0], stroke[1], DrawDiluent { to: Volume::ul(10) }, stroke[1]];
        assert_eq!(after_stock(&over), Err(Broken::VialOverfull));
    }

    #[test]
    fn only_like_goes_to_like() {
        let other = [DrawDiluent { to: HALF }, Dissolve { vial: 2 }];
        let both = [DrawFromVial { vial: 1, to: HALF }, DrawFromVial { vial: 2, to: FULL }];
        let joined = [other[0], other[1], both[0], both[1]];
        assert_eq!(after_stock(&joined), Err(Broken::UnlikeStrengths));
        let like = [DrawDiluent { to: FULL }, other[1], both[0], both[1]];
        assert!(after_stock(&like).is_ok());
        let made_up = [both[0], MakeUp { to: FULL }, Finish { syringe: 1 }];
        let plain = [made_up[0], made_up[1], made_up[2], both[0], Finish { syringe: 2 }];
        assert_eq!(after_stock(&plain), Err(Broken::UnlikeStrengths), "syringes are alike");
    }
}
