//! How it ended for the patient.

use super::Outcome;
use super::played::Played;
use crate::care::perfusion::stuck;
use crate::care::rounds::{End, HandOver};
use crate::care::situation::RedFlag;
use crate::protocol::simulation::{PUSTULES_AFTER, SIGHT_HANDED_OVER};
use crate::rehearsal::scenario::RightEnd;

/// The outcome, and whether it is as good an end as this patient could have.
pub(super) fn outcome(played: &Played) -> (Outcome, bool) {
    if let Some(gone) = played.sight {
        return match played.handed_over(gone) {
            Some(at) => (Outcome::HandedOverRightly, at.since(gone) <= SIGHT_HANDED_OVER.slow),
            None => (Outcome::Missed(RedFlag::Sight), false),
        };
    }
    match &played.reaction {
        Some((_, reacting)) if !reacting.settles => (Outcome::Missed(RedFlag::Airway), false),
        Some((onset, _)) if played.called(*onset).is_some() => (Outcome::HandedOverRightly, true),
        // Settled, and nobody watches it: the skin's outcome, and not a good end.
        Some(_) => (skin(played).0, false),
        None => skin(played),
    }
}

fn skin(played: &Played) -> (Outcome, bool) {
    let patient = &played.brief.patient;
    let reason = match played.ended {
        Some((_, End::HandedOver(reason))) => Some(reason),
        _ => None,
    };
    let mends = played.hoped.is_back(patient) && !played.skin.lost();
    let besides = matches!(played.brief.right_end, RightEnd::TreatedAndHandedOver(_));
    match reason {
        _ if played.skin.lost() => (Outcome::SkinLost, false),
        Some(_) if besides => (Outcome::HandedOverRightly, mends),
        None if besides && mends => (Outcome::Recovering, false),
        _ if played.skin.is_back(patient) => (Outcome::Perfused, true),
        Some(reason) if asked_for(reason, played) => (Outcome::HandedOverRightly, true),
        Some(_) => (Outcome::HandedOverWithoutNeed, mends),
        None if mends => (Outcome::Recovering, true),
        None => (Outcome::NotPerfused, false),
    }
}

/// Whether the reason said was there.
fn asked_for(reason: HandOver, played: &Played) -> bool {
    let case = played.case;
    match reason {
        HandOver::NoImprovement => {
            stuck(&case.treatment, &case.states(), &case.protocol)
                >= case.protocol.rounds_before_handover
        }
        HandOver::NoEnzyme => {
            let held: u32 = played.brief.bag.vials.iter().map(|some| some.count).sum();
            case.vials_opened >= held
        }
        HandOver::Necrosis => played.skin.harm >= PUSTULES_AFTER,
        // Of a sight gone or a reaction it was decided before.
        HandOver::Sight | HandOver::Stroke | HandOver::Reaction | HandOver::Other => false,
    }
}
