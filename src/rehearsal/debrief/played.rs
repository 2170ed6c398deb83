//! A rehearsal as it was played: all that the debrief looks at, worked out once.

use crate::care::anaphylaxis::Act as Reaction;
use crate::care::rounds::{End, HandOver};
use crate::case::{Case, Event, Journal};
use crate::measure::{Moment, Span, Units};
use crate::protocol::simulation::{ADRENALINE_ACTS, EFFECT_COMES};
use crate::rehearsal::coming::{Reacting, came, ended};
use crate::rehearsal::course::Course;
use crate::rehearsal::given::{Laid, laid, standing};
use crate::rehearsal::scenario::{Brief, Comes, Scenario};

/// What was played, up to the moment that it is looked back on.
pub(super) struct Played<'a> {
    pub brief: &'static Brief,
    pub start: Moment,
    /// When it is looked back on.
    pub now: Moment,
    /// When the patient is judged: when it was ended, or now.
    pub judged: Moment,
    pub journal: &'a Journal,
    pub case: &'a Case,
    pub laid: Vec<Laid>,
    /// The skin at the end.
    pub skin: Course,
    /// The skin once what was given has acted.
    pub hoped: Course,
    pub ended: Option<(Moment, End)>,
    /// When sight went.
    pub sight: Option<Moment>,
    /// When a reaction began, and how it stands once the last dose acts.
    pub reaction: Option<(Moment, Reacting)>,
}

impl<'a> Played<'a> {
    /// `journal` holds nothing later than `now`.
    pub fn of(
        scenario: Scenario,
        start: Moment,
        journal: &'a Journal,
        case: &'a Case,
        now: Moment,
    ) -> Self {
        let brief = scenario.brief();
        let laid = laid(brief, journal, case);
        let ended = ended(case);
        let judged = ended.map_or(now, |(at, _)| at.min(now)).max(start);
        let at = |moment| Course::of(&brief.patient, start, &laid, moment);
        let (skin, hoped) = (at(judged), at(judged.after(EFFECT_COMES)));
        let sight = came(Comes::SightLoss, brief, start, case, &laid, now);
        let reaction = came(Comes::Reaction, brief, start, case, &laid, now).map(|onset| {
            let acted = now.after(ADRENALINE_ACTS);
            (onset, Reacting::of(brief, onset, journal, case, &laid, acted))
        });
        Self { brief, start, now, judged, journal, case, laid, skin, hoped, ended, sight, reaction }
    }

    /// The events that count, with their moments.
    pub fn events(&self) -> impl Iterator<Item = (Moment, &'a Event)> {
        standing(self.journal, self.case).map(|entry| (entry.at(), entry.event()))
    }

    /// The moment of the first event that is so.
    pub fn first(&self, so: impl Fn(&Event) -> bool) -> Option<Moment> {
        self.events().find(|(_, event)| so(event)).map(|(at, _)| at)
    }

    /// The first event that is so, at a moment or after it.
    pub fn first_from(&self, from: Moment, so: impl Fn(&Event) -> bool) -> Option<Moment> {
        self.events().find(|(at, event)| *at >= from && so(event)).map(|(at, _)| at)
    }

    /// When the first unit was given.
    pub fn first_unit(&self) -> Option<Moment> {
        self.laid.iter().flat_map(|round| &round.injections).map(|injection| injection.at).min()
    }

    /// Units given from a moment on, up to another.
    pub fn units_between(&self, from: Moment, to: Moment) -> Units {
        let injections = self.laid.iter().flat_map(|round| &round.injections);
        injections.filter(|i| i.at > from && i.at <= to).map(|i| i.units).sum()
    }

    /// When it was handed over for what goes before everything, at this moment or after it: for
    /// sight that went, for a reaction that began. Where neither came, for whatever reason.
    ///
    /// Of other reasons nobody hears that an eye is at stake, or a life.
    pub fn handed_over(&self, from: Moment) -> Option<Moment> {
        self.handed_over_for(from, |reason| match (self.sight, &self.reaction) {
            (Some(_), _) => matches!(reason, HandOver::Sight | HandOver::Stroke),
            (None, Some(_)) => reason == HandOver::Reaction,
            (None, None) => true,
        })
    }

    /// When help was called in a reaction, or it was handed over for it, at this moment or after it.
    pub fn called(&self, from: Moment) -> Option<Moment> {
        let called = self.first_from(from, |event| *event == Event::Anaphylaxis(Reaction::Called));
        let handed = self.handed_over_for(from, |reason| reason == HandOver::Reaction);
        [called, handed].into_iter().flatten().min()
    }

    fn handed_over_for(&self, from: Moment, so: impl Fn(HandOver) -> bool) -> Option<Moment> {
        match self.ended? {
            (at, End::HandedOver(reason)) if at >= from && so(reason) => Some(at),
            _ => None,
        }
    }

    /// The first adrenaline at this moment or after it.
    pub fn adrenaline(&self, from: Moment) -> Option<Moment> {
        self.first_from(from, |e| matches!(e, Event::Anaphylaxis(Reaction::Adrenaline(_))))
    }

    /// From the start to a moment.
    pub fn since_start(&self, at: Moment) -> Span {
        at.since(self.start)
    }
}
