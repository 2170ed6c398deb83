//! What the looks propose next, and why. The clinician decides.

use super::{Aspect, Change, State, Trend, change};
use crate::care::refill::{Colour, Person};
use crate::care::rounds::{Function, HandOver, Sign, Temperature, Treatment};
use crate::care::situation::RedFlag;
use crate::protocol::Protocol;

/// What is proposed next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Next {
    /// The three signs of the end point are back: stop.
    Stop,
    /// Another round on the same skin.
    Repeat,
    /// Another round on more skin.
    Widen,
    /// Call for help.
    HandOver(HandOver),
}

/// What a proposal rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// A sign that goes before everything.
    RedFlag(RedFlag),
    /// Skin is turning black.
    Blackening,
    /// So many rounds without improvement, the clinic's number being reached.
    NoImprovement(u32),
    /// This sign is not back.
    Wanting(Sign),
    /// All three are back.
    AllBack,
    /// Refill was timed on the affected side alone.
    NotCompared,
    /// The skin is still cooler than on the other side, though the end point is reached.
    StillCool,
    /// The part is still impaired, though the end point is reached.
    StillImpaired,
    /// What changed in all since the look before.
    Changed(Change),
    /// What became of a sign, where it changed.
    Became(Aspect, Trend),
}

/// What is proposed and why; `None` before any look, unless a sign goes before everything.
///
/// `flags` are the signs of sight, stroke or airway that stand now, at whatever moment they were
/// noticed: they override the rest. Then skin turning black; then the three signs of the end point;
/// then the clinic's number of rounds without improvement; and where the outline has grown the round
/// is wider. `states` are the treatment's looks with all that was seen, first to last.
pub fn next(
    treatment: &Treatment,
    flags: &[RedFlag],
    states: &[State],
    person: Person,
    protocol: &Protocol,
) -> Option<(Next, Vec<Why>)> {
    if let Some(first) = flags.first() {
        let why = flags.iter().map(|flag| Why::RedFlag(*flag)).collect();
        return Some((Next::HandOver(HandOver::of(*first)), why));
    }
    let (_, look) = treatment.looks().last()?;
    let wanting = look.wanting(person, protocol);
    if wanting.is_empty() {
        let alone = look.refill.is_none_or(|refill| refill.opposite.is_none());
        let still = [
            alone.then_some(Why::NotCompared),
            (look.temperature == Some(Temperature::Cool)).then_some(Why::StillCool),
            (look.function == Some(Function::Impaired)).then_some(Why::StillImpaired),
        ];
        return Some((
            Next::Stop,
            std::iter::once(Why::AllBack).chain(still.into_iter().flatten()).collect(),
        ));
    }
    let changed = match states {
        [.., before, now] => Some(change(before, now, protocol)),
        _ => None,
    };
    let mut why: Vec<Why> = wanting.into_iter().map(Why::Wanting).collect();
    if let Some(changed) = changed {
        why.push(Why::Changed(changed.whole()));
        let told =
            changed.trends().iter().filter(|(_, t)| matches!(t, Trend::Better | Trend::Worse));
        why.extend(told.map(|(aspect, trend)| Why::Became(*aspect, *trend)));
    }
    let stuck = stuck(treatment, states, protocol);
    let next = if look.colour == Colour::Black {
        why.insert(0, Why::Blackening);
        Next::HandOver(HandOver::Necrosis)
    } else if stuck >= protocol.rounds_before_handover {
        why.insert(0, Why::NoImprovement(stuck));
        Next::HandOver(HandOver::NoImprovement)
    } else if changed.is_some_and(|changed| changed.of(Aspect::Outline) == Trend::Worse) {
        Next::Widen
    } else {
        Next::Repeat
    };
    Some((next, why))
}

/// Rounds that were over at the last look since the last one that was better than the one before it.
/// What nobody has looked at since is told by nobody.
///
/// With no look from before treatment, the first round's look has nothing to be compared with and
/// does not count as improvement.
pub fn stuck(treatment: &Treatment, states: &[State], protocol: &Protocol) -> u32 {
    let before_better = states
        .windows(2)
        .zip(treatment.rounds_over().iter().skip(1))
        .rev()
        .find(|(pair, _)| change(&pair[0], &pair[1], protocol).whole() == Change::Better)
        .map_or(0, |(_, over)| *over);
    let looked = treatment.rounds_over().last().copied().unwrap_or(0);
    u32::try_from(looked.saturating_sub(before_better)).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::allergy::Urgency;
    use crate::care::dose::RoundPlan;
    use crate::care::refill::Refill;
    use crate::care::rounds::{Act, Look, Pain};
    use crate::measure::{Area, Moment, Span, Strength, Volume};

    const PLAN: RoundPlan =
        RoundPlan { strength: Strength::per_ml(500), bolus: Volume::ul(100), points: 1 };

    fn seen(affected: u64, colour: Colour) -> Look {
        let opposite = Some(Span::millis(1_500));
        let refill = Refill { affected: Span::millis(affected), opposite };
        Look { refill: Some(refill), ..Look::of(colour, Pain::NONE) }
    }

    /// A treatment of which only the acts matter, with the outline as it was told beside each look.
    fn treated(acts: &[Act], areas: &[u64]) -> (Treatment, Vec<State>) {
        let mut treatment = Treatment::new(Urgency::Urgent);
        for act in acts {
            treatment.apply(Moment::default(), act).unwrap();
        }
        let areas = areas.iter().copied().map(Area::mm2).map(Some).chain(std::iter::repeat(None));
        let states =
            treatment.looks().iter().zip(areas).map(|((_, look), area)| State::of(look, area));
        let states = states.collect();
        (treatment, states)
    }

    fn round(look: Look) -> [Act; 3] {
        [Act::Begin(PLAN), Act::Finish, Act::Look(look)]
    }

    fn proposed(acts: &[Act], areas: &[u64], flags: &[RedFlag]) -> (Next, Vec<Why>) {
        let (treatment, states) = treated(acts, areas);
        next(&treatment, flags, &states, Person::default(), &Protocol::default()).unwrap()
    }

    #[test]
    fn a_grown_outline_asks_for_a_wider_round() {
        let slow = || seen(4_000, Colour::Mottled);
        let acts: Vec<Act> = std::iter::once(Act::Look(slow())).chain(round(slow())).collect();
        assert_eq!(proposed(&acts, &[1_000, 1_000], &[]).0, Next::Repeat);
        let (next, why) = proposed(&acts, &[1_000, 1_500], &[]);
        assert_eq!(next, Next::Widen);
        assert!(why.contains(&Why::Became(Aspect::Outline, Trend::Worse)));
        assert!(why.contains(&Why::Changed(Change::Worse)));
    }

    #[test]
    fn sight_and_stroke_override_everything_at_any_moment() {
        let well = round(seen(1_500, Colour::Normal));
        assert_eq!(proposed(&well, &[], &[]), (Next::Stop, vec![Why::AllBack]));
        for (flag, to) in [
            (RedFlag::Sight, HandOver::Sight),
            (RedFlag::Stroke, HandOver::Stroke),
            (RedFlag::Airway, HandOver::Reaction),
        ] {
            for acts in [&well[..], &[]] {
                let told = (Next::HandOver(to), vec![Why::RedFlag(flag)]);
                assert_eq!(proposed(acts, &[], &[flag]), told);
            }
        }
        let (fresh, states) = treated(&[], &[]);
        assert_eq!(next(&fresh, &[], &states, Person::default(), &Protocol::default()), None);
        let black = round(seen(4_000, Colour::Black));
        assert_eq!(proposed(&black, &[], &[]).0, Next::HandOver(HandOver::Necrosis));
    }

    #[test]
    fn the_end_says_what_is_still_wrong() {
        let mut look = seen(1_500, Colour::Normal);
        look.refill = look.refill.map(|refill| Refill { opposite: None, ..refill });
        look.temperature = Some(Temperature::Cool);
        look.function = Some(Function::Impaired);
        let (next, why) = proposed(&round(look), &[], &[]);
        assert_eq!(next, Next::Stop);
        assert_eq!(why, [Why::AllBack, Why::NotCompared, Why::StillCool, Why::StillImpaired]);
    }

    #[test]
    fn rounds_without_improvement_ask_for_help() {
        let slow = || seen(5_000, Colour::Pale);
        let mut acts = vec![Act::Look(slow())];
        for hour in 0..4 {
            acts.extend(round(slow()));
            let asked = proposed(&acts, &[], &[]).0 == Next::HandOver(HandOver::NoImprovement);
            assert_eq!(asked, hour == 3, "after round {}", hour + 1);
        }
        // A smaller outline is an improvement too.
        let (treatment, states) = treated(&acts, &[1_000, 1_000, 1_000, 1_000, 500]);
        assert_eq!(stuck(&treatment, &states, &Protocol::default()), 0);
    }

    #[test]
    fn improvement_starts_the_count_anew() {
        let count = |acts: &[Act]| {
            let (treatment, states) = treated(acts, &[]);
            stuck(&treatment, &states, &Protocol::default())
        };
        let mut acts = vec![Act::Look(seen(5_000, Colour::Pale))];
        acts.extend(round(seen(4_000, Colour::Pale)));
        assert_eq!(count(&acts), 0);
        acts.extend(round(seen(4_000, Colour::Pale)));
        assert_eq!(count(&acts), 1);
    }
}
