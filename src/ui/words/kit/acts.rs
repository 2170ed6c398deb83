//! What happened to the kit, in the words of a record.

use super::{article_full, in_place, into_place, kind, lie, printed};
use crate::kit::{Act, Discard, Lot, LotId};
use crate::ui::language::{spoken, within};
use crate::ui::words::numbers;

pub fn discard(why: Discard) -> &'static str {
    spoken(match why {
        Discard::Expired => "Expired",
        Discard::Spoilt => "Broken, opened or stored wrongly",
        Discard::Recalled => "Recalled",
        Discard::Other => "Given away or used otherwise",
    })
}

/// What happened, and more of it in small where there is more. The lot is named by its digest: what
/// it was stands in the entry that received it.
pub fn act(act: &Act) -> (String, Option<String>) {
    let named = |lot: &LotId| tr!("Lot {id}", id = lot.0.short());
    match act {
        Act::Received(lot) => (line(act), Some(detail(lot))),
        Act::Delivered { lot, .. } | Act::Counted { lot, .. } | Act::Moved { lot, .. } => {
            (line(act), Some(named(lot)))
        }
        Act::Discarded { lot, why, .. } => {
            (line(act), Some(format!("{}. {}", discard(*why), named(lot))))
        }
        Act::Amended { lot, batch, expiry } => {
            (line(act), Some(format!("{}. {}", printed(batch, *expiry), named(lot))))
        }
        Act::Wanted { .. } => (line(act), None),
    }
}

/// The same where the lot is known: it is said and not named.
pub fn act_of(act: &Act, lot: Option<&Lot>) -> (String, Option<String>) {
    let Some(lot) = lot else { return self::act(act) };
    let small = match act {
        Act::Received(_) => printed(&lot.batch, lot.expiry),
        Act::Discarded { why, .. } => format!("{}. {}", detail(lot), discard(*why)),
        Act::Amended { batch, expiry, .. } => {
            format!("{}. {}", article_full(lot.article), printed(batch, *expiry))
        }
        Act::Delivered { .. } | Act::Counted { .. } | Act::Moved { .. } | Act::Wanted { .. } => {
            detail(lot)
        }
    };
    (line(act), Some(small))
}

/// What happened, in one line.
fn line(act: &Act) -> String {
    match act {
        Act::Received(lot) => tr!(
            "Came in: {count} × {article}, {place}",
            count = lot.count,
            article = article_full(lot.article),
            place = in_place(lot.place)
        ),
        Act::Delivered { place, count, .. } => {
            tr!("More came in: {there}", there = lie(*count, *place))
        }
        Act::Counted { place, count, .. } => tr!("Counted: {there}", there = lie(*count, *place)),
        Act::Moved { to, count, .. } => format!("{}: {count}", into_place(*to)),
        Act::Discarded { place, count, .. } => {
            tr!("Thrown away: {there}", there = lie(*count, *place))
        }
        Act::Amended { .. } => spoken("Batch and expiry put right").to_owned(),
        Act::Wanted { kind: of, count } => {
            let pieces =
                tr!("{count} piece" | "{count} pieces" % *count, count = numbers::whole(count));
            tr!("To be held: {kind}, {pieces}", kind = within(kind(*of)), pieces)
        }
    }
}

fn detail(lot: &Lot) -> String {
    format!("{}, {}", article_full(lot.article), printed(&lot.batch, lot.expiry))
}
