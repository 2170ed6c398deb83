//! Whether the kit would do for an occlusion.
//!
//! By what was booked, which may not be what is there. What is past its day does not count, nor does
//! what nobody noted the day of.
//!
//! - A round is made from vials of its own, since a solution is used at once after it was made
//!   (British Pharmacopoeia, as the syringe's label says): what is left of a vial is waste.
//! - The vials of a round are those with the least waste; of equal waste the fewest; of one strength
//!   those that expire first. Round by round: another choice may now and then serve one round more, so
//!   the number told is one that can be done, not the best that could be thought out.

mod rounds;

pub use rounds::{Picked, Rounds};

use super::{Article, Holding, Kind, LotId, Place, Stock};
use crate::measure::order;
use crate::measure::{Date, Span, Volume};
use crate::protocol::Protocol;
use rounds::{Lying, serve};

/// How many areas a round is reckoned for.
const AREAS: [u64; 3] = [1, 2, 3];

/// What the kit is worth.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Readiness {
    /// For one, two and three areas: how many rounds it serves.
    pub rounds: [Rounds; 3],
    /// Each kind: what is there in date, what is wanted, what cannot be done without.
    pub kinds: Vec<Have>,
    /// Whether the diluent is enough for the first round of one area; `None` without its vials.
    pub diluent: Option<Diluent>,
    /// What lies there and runs out or has run out, the earliest day first.
    pub expiring: Vec<Expiring>,
    /// What lies there and nobody noted the day of.
    pub undated: Vec<LotId>,
    /// All in all.
    pub verdict: Verdict,
}

/// How many of a kind there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Have {
    /// Of what.
    pub kind: Kind,
    /// How many in date.
    pub there: u32,
    /// How many the clinic wants to hold, or the protocol where it said nothing.
    pub wanted: Option<u32>,
    /// How many one round of one area cannot be done without.
    pub needed: u32,
    /// Whether anything of this kind was ever booked. What never was may be there all the same.
    pub noted: bool,
}

impl Have {
    /// Fewer than cannot be done without.
    pub const fn lacking(&self) -> bool {
        self.there < self.needed
    }

    /// Fewer than wanted.
    pub const fn below_wish(&self) -> bool {
        match self.wanted {
            Some(wanted) => self.there < wanted,
            None => false,
        }
    }
}

/// Diluent in date against what the vials of a round take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Diluent {
    /// In all containers together.
    pub there: Volume,
    /// To bring the vials of the first round to the strength for an occlusion.
    pub needed: Volume,
}

/// How soon a thing runs out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Runs {
    /// Past its day.
    Out,
    /// Within [`Protocol::expiry_near`].
    Near,
    /// Within [`Protocol::expiry_ahead`].
    Ahead,
}

/// A lot that runs out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Expiring {
    /// Which.
    pub lot: LotId,
    /// Its last day of use.
    pub last: Date,
    /// How soon.
    pub runs: Runs,
}

/// All in all, the worst that holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Something that cannot be done without is booked and not there: no round can be given.
    NotReady,
    /// Nothing is known to be missing, but something was never booked.
    NotAllNoted,
    /// A round can be given; less is there than wanted.
    BelowWish,
    /// All that is needed and wanted is there.
    Ready,
}

/// What the kit is worth on a day, at one place or at both.
pub fn readiness(
    stock: &Stock,
    place: Option<Place>,
    today: Date,
    protocol: &Protocol,
) -> Readiness {
    let lying: Vec<(&Holding, u32)> = stock
        .holdings()
        .iter()
        .map(|holding| (holding, place.map_or_else(|| holding.left(), |place| holding.at(place))))
        .filter(|(_, count)| *count > 0)
        .collect();
    let in_date: Vec<(&Holding, u32)> = lying
        .iter()
        .filter(|(holding, _)| holding.lot.expiry.is_some_and(|last| last >= today))
        .copied()
        .collect();
    let vials: Vec<Lying> = in_date
        .iter()
        .filter_map(|(holding, count)| match holding.lot.article {
            Article::Hyaluronidase { units, .. } => {
                Some(Lying { lot: holding.id, units, last: holding.lot.expiry?, count: *count })
            }
            _ => None,
        })
        .collect();
    let rounds = AREAS.map(|areas| serve(areas, protocol.area_units, &vials));
    let first = &rounds[0];
    let diluent = (first.served > 0).then(|| Diluent {
        there: in_date.iter().map(|(holding, count)| held(holding, *count)).sum(),
        needed: protocol.urgent_strength.volume_of(first.in_vials).unwrap_or(Volume::ZERO),
    });
    let kinds: Vec<Have> = Kind::ALL
        .map(|kind| Have {
            kind,
            there: of_kind(&in_date, kind),
            wanted: stock
                .wanted(kind)
                .or_else(|| (kind == Kind::Hyaluronidase).then_some(protocol.vials_at_hand)),
            needed: needed(kind, protocol),
            noted: stock.holdings().iter().any(|holding| holding.lot.article.kind() == kind),
        })
        .to_vec();
    let verdict = verdict(&kinds, first.served, diluent);
    Readiness {
        rounds,
        kinds,
        diluent,
        expiring: expiring(&lying, today, protocol),
        undated: lying
            .iter()
            .filter(|(holding, _)| holding.lot.expiry.is_none())
            .map(|(holding, _)| holding.id)
            .collect(),
        verdict,
    }
}

fn of_kind(there: &[(&Holding, u32)], kind: Kind) -> u32 {
    let of = there.iter().filter(|(holding, _)| holding.lot.article.kind() == kind);
    of.fold(0, |sum, (_, count)| sum.saturating_add(*count))
}

/// Diluent in so many containers of a lot; none in what is no diluent.
fn held(holding: &Holding, count: u32) -> Volume {
    match holding.lot.article {
        Article::Diluent { holds, .. } => Volume::ul(holds.raw().saturating_mul(u64::from(count))),
        _ => Volume::ZERO,
    }
}

/// What one round cannot be done without: one of each, and adrenaline until a reaction counts as
/// refractory.
const fn needed(kind: Kind, protocol: &Protocol) -> u32 {
    match kind {
        Kind::Hyaluronidase | Kind::Diluent | Kind::Syringe | Kind::Needle => 1,
        Kind::Adrenaline => protocol.refractory_doses,
        Kind::Aspirin => 0,
    }
}

fn verdict(kinds: &[Have], rounds: u32, diluent: Option<Diluent>) -> Verdict {
    let short = diluent.is_some_and(|diluent| diluent.there < diluent.needed);
    let noted = |kind| kinds.iter().any(|have| have.kind == kind && have.noted);
    let lacking = kinds.iter().any(|have| have.noted && have.lacking());
    if (noted(Kind::Hyaluronidase) && rounds == 0) || lacking || (noted(Kind::Diluent) && short) {
        Verdict::NotReady
    } else if kinds.iter().any(|have| have.needed > 0 && !have.noted) {
        Verdict::NotAllNoted
    } else if kinds.iter().any(Have::below_wish) {
        Verdict::BelowWish
    } else {
        Verdict::Ready
    }
}

fn expiring(lying: &[(&Holding, u32)], today: Date, protocol: &Protocol) -> Vec<Expiring> {
    let within =
        |days: i64, span: Span| u64::try_from(days).is_ok_and(|days| Span::days(days) <= span);
    let mut expiring: Vec<Expiring> = lying
        .iter()
        .filter_map(|(holding, _)| {
            let last = holding.lot.expiry?;
            let days = today.days_until(last);
            let runs = if days < 0 {
                Runs::Out
            } else if within(days, protocol.expiry_near) {
                Runs::Near
            } else if within(days, protocol.expiry_ahead) {
                Runs::Ahead
            } else {
                return None;
            };
            Some(Expiring { lot: holding.id, last, runs })
        })
        .collect();
    order::by_key(&mut expiring, |one| one.last);
    expiring
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::allergy::Species;
    use crate::kit::{Act, Done, Lot};
    use crate::measure::{Hash, Moment, Units};
    use crate::protocol::diluent::Diluent as Liquid;

    fn day(year: i16, month: i8, day: i8) -> Date {
        Date::new(year, month, day).unwrap()
    }

    fn vials(units: u64) -> Article {
        Article::Hyaluronidase { units: Units::whole(units), species: Species::Ovine }
    }

    const SALINE: Article = Article::Diluent { diluent: Liquid::Saline, holds: Volume::ml(10) };

    fn stock(lots: &[(Article, u32, Option<Date>)]) -> Stock {
        let acts: Vec<(LotId, Act)> = (0_u32..)
            .zip(lots)
            .map(|(number, (article, count, expiry))| {
                let lot = Lot {
                    article: *article,
                    batch: format!("DEMO-{number}"),
                    expiry: *expiry,
                    gtin: None,
                    place: Place::Clinic,
                    count: *count,
                };
                (LotId(Hash::of(&number.to_le_bytes())), Act::Received(Box::new(lot)))
            })
            .collect();
        let at = Moment::from_millis(0);
        Stock::of(acts.iter().map(|(id, act)| Done { id: *id, at, act }), &[])
    }

    fn full(vial: (Article, u32, Option<Date>)) -> Vec<(Article, u32, Option<Date>)> {
        let later = Some(day(2028, 1, 31));
        vec![
            vial,
            (SALINE, 2, later),
            (Article::Syringe { holds: Volume::ml(1) }, 10, later),
            (Article::Needle, 10, later),
            (Article::Adrenaline, 2, later),
        ]
    }

    fn told(lots: &[(Article, u32, Option<Date>)]) -> Readiness {
        readiness(&stock(lots), None, day(2026, 11, 26), &Protocol::default())
    }

    #[test]
    fn each_round_opens_vials_of_its_own() {
        let readiness = told(&full((vials(1_500), 4, Some(day(2027, 5, 31)))));
        assert_eq!(readiness.rounds.each_ref().map(|rounds| rounds.served), [4, 4, 4]);
        assert_eq!(readiness.verdict, Verdict::Ready);
        // 500, 1000 and 1500 units out of 150: 4, 7 and 10 vials each.
        let small = told(&full((vials(150), 20, Some(day(2027, 5, 31)))));
        assert_eq!(small.rounds.each_ref().map(|rounds| rounds.served), [5, 2, 2]);
        assert_eq!(small.rounds[0].in_vials, Units::whole(600));
    }

    #[test]
    fn the_least_waste_first_and_then_what_expires_first() {
        let (soon, late) = (Some(day(2026, 12, 31)), Some(day(2028, 12, 31)));
        let lots = [(vials(1_500), 1, soon), (vials(300), 2, late), (vials(300), 1, soon)];
        let readiness = told(&lots);
        let stock = stock(&lots);
        let id = |place: usize| stock.holdings()[place].id;
        // 600 out of two wastes less than 1500 out of one, though that expires sooner.
        let first = &readiness.rounds[0];
        assert_eq!(first.in_vials, Units::whole(600));
        assert_eq!(first.first, [Picked { lot: id(2), count: 1 }, Picked { lot: id(1), count: 1 }]);
        assert_eq!(first.served, 2);
    }

    #[test]
    fn what_is_past_its_day_or_has_none_does_not_count() {
        let today = day(2026, 11, 26);
        let served = |expiry| told(&full((vials(1_500), 4, expiry))).rounds[0].served;
        assert_eq!(served(Some(today)), 4);
        assert_eq!(served(today.days_before(1)), 0);
        assert_eq!(served(None), 0);
        let told = told(&full((vials(1_500), 4, None)));
        assert_eq!((told.undated.len(), told.verdict), (1, Verdict::NotReady));
    }

    #[test]
    fn the_worst_that_holds_is_the_verdict() {
        let later = Some(day(2028, 1, 31));
        assert_eq!(told(&[]).verdict, Verdict::NotAllNoted);
        assert_eq!(told(&[(vials(1_500), 4, later)]).verdict, Verdict::NotAllNoted);
        assert_eq!(told(&full((vials(1_500), 3, later))).verdict, Verdict::BelowWish);
        let mut lots = full((vials(1_500), 4, later));
        lots[4].1 = 1;
        assert_eq!(told(&lots).verdict, Verdict::NotReady, "one dose of adrenaline is too few");
        let mut lots = full((vials(1_500), 4, later));
        lots[1] = (Article::Diluent { diluent: Liquid::Saline, holds: Volume::ml(1) }, 2, later);
        let short = told(&lots);
        assert_eq!(short.verdict, Verdict::NotReady, "2 mL do not bring 1500 units to 500 in 1 mL");
        assert_eq!(short.diluent, Some(Diluent { there: Volume::ml(2), needed: Volume::ml(3) }));
    }

    #[test]
    fn what_runs_out_is_told_in_time() {
        let today = day(2026, 11, 26);
        let runs = |days: i64| {
            let told = told(&[(vials(1_500), 1, today.days_before(-days))]);
            told.expiring.first().map(|one| one.runs)
        };
        assert_eq!(runs(-1), Some(Runs::Out));
        assert_eq!((runs(0), runs(30)), (Some(Runs::Near), Some(Runs::Near)));
        assert_eq!((runs(31), runs(90)), (Some(Runs::Ahead), Some(Runs::Ahead)));
        assert_eq!(runs(91), None);
    }
}
