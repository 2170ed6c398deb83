//! What comes on the way: when, and the course of a reaction.

use super::given::{Laid, WHOLE, standing};
use super::scenario::{Brief, Comes, When};
use crate::care::anaphylaxis::{Act, Build, Dose, Sign, dose};
use crate::care::rounds::End;
use crate::case::{Case, Event, Journal};
use crate::measure::{Moment, Span, Volume};
use crate::protocol::adrenaline::MONTHS_OF_YEAR;
use crate::protocol::simulation::{
    ADRENALINE_ACTS, BREATHLESS_FROM, COLLAPSE_FROM, FAINT_FROM, REACTION_FALLS, REACTION_FED,
    REACTION_HELD, REACTION_LONGEST, REACTION_RISES, REACTION_STEP, THROAT_FROM, WHEEZES_FROM,
    WORST,
};

/// When something came; `None` while it has not, or if it never does.
pub(super) fn came(
    what: Comes,
    brief: &Brief,
    start: Moment,
    case: &Case,
    laid: &[Laid],
    now: Moment,
) -> Option<Moment> {
    let ended = ended(case).map_or(now, |(at, _)| at.min(now));
    let comings = brief.coming.iter().filter(|coming| coming.what == what);
    let moments = comings.flat_map(|coming| coming.when).filter_map(|when| match *when {
        When::AfterStart(span) => Some(start.after(span)),
        When::AfterLook(number, span) => {
            let looks = case.treatment.looks();
            let (at, _) = looks.get(usize::try_from(number.checked_sub(1)?).ok()?)?;
            Some(at.after(span))
        }
        When::AfterRound(number, span) => {
            let round = laid.get(usize::try_from(number.checked_sub(1)?).ok()?)?;
            Some(round.injections.first()?.at.after(span))
        }
    });
    moments.min().map(|at| at.max(start)).filter(|at| *at <= ended)
}

/// When and how the rehearsal was ended: by the end of the treatment or the close of the case.
pub(super) fn ended(case: &Case) -> Option<(Moment, End)> {
    [case.treatment.end(), case.closed].into_iter().flatten().min_by_key(|(at, _)| *at)
}

/// A reaction at a moment.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Reacting {
    /// How bad it is, in thousandths of the worst.
    pub severity: u64,
    /// Whether it settles: enough adrenaline has been given, and acts.
    pub settles: bool,
    /// When it was over.
    pub over: Option<Moment>,
}

impl Reacting {
    /// The reaction that began at `onset`, at `now`.
    pub fn of(
        brief: &Brief,
        onset: Moment,
        journal: &Journal,
        case: &Case,
        laid: &[Laid],
        now: Moment,
    ) -> Self {
        let least = least_dose(brief, case);
        let doses: Vec<Moment> = adrenaline(journal, case)
            .filter(|(at, volume)| *at >= onset && *volume >= least)
            .map(|(at, _)| at.after(ADRENALINE_ACTS))
            .collect();
        let fed = laid.iter().flat_map(|round| &round.injections).map(|injection| injection.at);
        let fed: Vec<Moment> = fed.filter(|at| *at >= onset).collect();
        let until = now.since(onset).as_millis().min(REACTION_LONGEST.as_millis());
        let step = REACTION_STEP.as_millis();
        let (mut reacting, mut passed) = (Self { severity: 1, ..Self::default() }, 0);
        while passed < until {
            let (from, to) = (onset.after(Span::millis(passed)), passed + step.min(until - passed));
            let upto = onset.after(Span::millis(to));
            let acting = doses.iter().filter(|at| **at <= from).count() as u64;
            let needed = u64::from(brief.patient.doses);
            let by = |rate: u64| rate * (to - passed) / Span::minutes(1).as_millis();
            reacting.settles = acting >= needed;
            let more = fed.iter().filter(|at| **at > from && **at <= upto).count() as u64;
            reacting.severity += more * REACTION_FED;
            reacting.severity = if reacting.settles {
                reacting.severity.saturating_sub(by(REACTION_FALLS))
            } else {
                let rate = if acting == 0 { REACTION_RISES } else { REACTION_HELD };
                (reacting.severity + by(rate)).min(WORST)
            };
            passed = to;
            if reacting.severity > 0 {
                reacting.over = None;
            } else if reacting.over.is_none() {
                reacting.over = Some(upto);
            }
        }
        reacting
    }

    /// Its signs, the worst first.
    pub fn signs(&self) -> Vec<Sign> {
        [
            (THROAT_FROM, Sign::UpperAirway),
            (WHEEZES_FROM, Sign::Bronchospasm),
            (BREATHLESS_FROM, Sign::Breathing),
            (COLLAPSE_FROM, Sign::Hypotension),
            (FAINT_FROM, Sign::Circulation),
            (1, Sign::Skin),
        ]
        .into_iter()
        .filter(|(from, _)| self.severity >= *from)
        .map(|(_, sign)| sign)
        .collect()
    }
}

/// The least volume of adrenaline that is a dose for this patient, under the region in force.
pub(super) fn least_dose(brief: &Brief, case: &Case) -> Volume {
    range(brief, case).low
}

/// The doses for this patient under the region in force.
pub(super) fn range(brief: &Brief, case: &Case) -> Dose {
    let months = brief.patient.years.saturating_mul(MONTHS_OF_YEAR);
    dose(months, Build::Adult, case.protocol.region)
}

/// The doses of adrenaline as recorded.
pub(super) fn adrenaline<'a>(
    journal: &'a Journal,
    case: &'a Case,
) -> impl Iterator<Item = (Moment, Volume)> + 'a {
    standing(journal, case).filter_map(|entry| match entry.event() {
        Event::Anaphylaxis(Act::Adrenaline(volume)) => Some((entry.at(), *volume)),
        _ => None,
    })
}

const _: () = assert!(WORST == WHOLE);
