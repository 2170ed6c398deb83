//! The kit in a few words, for the start screen.

use crate::kit::ready::{Expiring, Runs, readiness};
use crate::kit::{Holding, Kind, LotId, Stock};
use crate::measure::Date;
use crate::protocol::Protocol;
use crate::ui::words::kit as said;

/// The kit in a few words: how many vials are in date, and which run out first.
pub fn state(stock: &Stock, today: Date, protocol: &Protocol) -> String {
    if stock.holdings().is_empty() {
        return said::empty().to_owned();
    }
    let runs = readiness(stock, None, today, protocol).expiring;
    let left = |lot: LotId| stock.holding(lot).map_or(0, Holding::left);
    let enzyme = |lot: LotId| {
        let kind = stock.holding(lot).map(|holding| holding.lot.article.kind());
        kind == Some(Kind::Hyaluronidase)
    };
    let sum = |sum: u32, lot: LotId| sum.saturating_add(left(lot));
    let vials = stock.holdings().iter().map(|holding| holding.id).filter(|lot| enzyme(*lot));
    let vials = vials.fold(0, sum);
    let (out, soon): (Vec<Expiring>, Vec<Expiring>) =
        runs.into_iter().partition(|one| one.runs == Runs::Out);
    let past = out.iter().map(|one| one.lot).filter(|lot| enzyme(*lot)).fold(0, sum);
    let others = out.iter().any(|one| !enzyme(one.lot));
    let next = soon.iter().find(|one| enzyme(one.lot)).map(|one| {
        let days = u32::try_from(today.days_until(one.last)).unwrap_or_default();
        (days, left(one.lot))
    });
    said::state(vials.saturating_sub(past), next, past, others)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::allergy::Species;
    use crate::kit::{Act, Article, Done, Lot, LotId, Place};
    use crate::measure::{Hash, Moment, Units};

    #[test]
    fn a_few_words_say_how_many_and_what_runs_out() {
        let day = |year, month, day| Date::new(year, month, day);
        let units = Units::whole(1_500);
        let enzyme = Article::Hyaluronidase { units, species: Species::Ovine };
        let of = |lots: &[(Article, Option<Date>, u32)]| {
            let acts: Vec<Act> = lots
                .iter()
                .map(|&(article, expiry, count)| {
                    let (batch, place) = (String::new(), Place::Clinic);
                    let lot = Lot { article, batch, expiry, gtin: None, place, count };
                    Act::Received(Box::new(lot))
                })
                .collect();
            let at = Moment::from_millis(0);
            let done = acts.iter().zip(0_u32..).map(|(act, n)| Done {
                id: LotId(Hash::of(&n.to_le_bytes())),
                at,
                act,
            });
            let today = day(2026, 11, 26).unwrap();
            state(&Stock::of(done, &[]), today, &Protocol::default())
        };
        assert_eq!(of(&[]), "Nothing noted yet");
        assert_eq!(of(&[(enzyme, None, 4)]), "4 vials");
        let soon = (enzyme, day(2026, 12, 8), 1);
        assert_eq!(of(&[(enzyme, None, 3), soon]), "4 vials · 1 expires in 12 days");
        assert_eq!(of(&[(enzyme, day(2026, 11, 26), 2)]), "2 vials · last day of 2 is today");
        let past = (enzyme, day(2026, 11, 25), 2);
        assert_eq!(of(&[past, soon]), "1 vial in date · 2 expired");
        let needles = (Article::Needle, day(2026, 11, 25), 2);
        assert_eq!(of(&[(enzyme, None, 4), needles]), "4 vials · other things expired");
    }
}
