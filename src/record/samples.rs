//! Whole cases of an invented clinic: for the tests of what is written about a case, and for the papers
//! that are kept to be shown.

use super::note::Note;
use crate::care::adjunct::{self, Choice};
use crate::care::aftercare::{Damage, Review, Seen};
use crate::care::allergy::{Answer, Answers, Medicine, Species, Urgency};
use crate::care::anaphylaxis::{self, Sign as Reacting};
use crate::care::dilution::{Ask, Syringe, Vial as Powder, plans};
use crate::care::refill::readings::{Reading, Side};
use crate::care::refill::{Colour, Person, Sex};
use crate::care::rounds::{Act, End, Function, HandOver, Look, Pain, SkipReason, Temperature};
use crate::care::situation::{Aim, Filler, Findings, RedFlag, Sign};
use crate::care::skin_test::{self, Placed};
use crate::care::territory::{Ground, Outlined, Size, Territory};
use crate::case::{Case, CaseId, Event, Journal, Overridden, Reference, StrikeReason};
use crate::kit::Vial;
use crate::measure::{Area, Date, Hash, Length, Moment, Span, Strength, Units, Volume};
use crate::plane::{Kind, Spot, Stroke, trace};
use crate::protocol::Protocol;
use crate::protocol::adjunct::{Adjunct, Milligrams};
use crate::protocol::face::View;
use crate::protocol::zone::Zone;

/// 5 November 2026, 09:00 UTC.
pub const START: Moment = Moment::from_millis(1_793_869_200_000);
/// An hour ahead of UTC.
pub const ZONE: i16 = 60;

/// A case as it is being told.
pub struct Told {
    /// All of it.
    pub journal: Journal,
    minute: u64,
}

impl Told {
    /// Named by digits that look as random as those of a phone, and are the same each time.
    fn new(reference: &str) -> Self {
        let digits = Hash::of(reference.as_bytes()).to_string();
        let id: CaseId = digits[..32].parse().expect("a digest has more than 32 digits");
        let mut told = Self { journal: Journal::new(id), minute: 0 };
        told.then(Event::Opened {
            reference: Reference::new(reference).unwrap(),
            protocol: Box::default(),
        });
        told
    }

    fn at(&self) -> Moment {
        START.after(Span::minutes(self.minute))
    }

    fn then(&mut self, event: Event) {
        self.journal.append(self.at(), ZONE, event);
    }

    fn wait(&mut self, minutes: u64) -> &mut Self {
        self.minute += minutes;
        self
    }

    fn act(&mut self, act: Act) {
        self.then(Event::Round(act));
    }

    /// What it folds into.
    pub fn case(&self) -> Case {
        Case::of(&self.journal)
    }

    /// When its papers are written out: two days after the start, or at its last entry.
    pub fn written(&self) -> Moment {
        self.at().max(START.after(Span::days(2)))
    }

    /// The note, as it is written out then.
    pub fn note(&self) -> Note {
        Note::of(&self.case(), &self.journal, &[], self.written(), ZONE)
    }

    fn found(&mut self, red_flags: Vec<RedFlag>) {
        let signs = vec![Sign::Pallor, Sign::Mottling, Sign::SlowRefill, Sign::Pain];
        let person = Person { sex: Some(Sex::Female), years: Some(34) };
        let onset = Some(START.before(Span::minutes(25)));
        self.then(Event::Found(Box::new(Findings {
            red_flags,
            signs,
            filler: Filler::Hyaluronic,
            onset,
            person,
            ..Findings::default()
        })));
        self.then(Event::Way { urgency: Urgency::Urgent, aim: None });
        self.wait(1);
        self.then(Event::Asked(Answers {
            species: Species::Ovine,
            previous_reaction: Answer::No,
            bee: Answer::No,
            medicines: vec![Medicine::Salicylates],
            ..Answers::default()
        }));
        self.then(Event::Ready);
    }

    fn territory(&mut self, area: Area) {
        let skin = Territory::new(vec![Zone::UpperLip], Size::Typed(area), &Protocol::default());
        self.then(Event::Territory(skin.unwrap()));
    }

    /// A solution of 500 units/mL for so many units; only its first vial is noted.
    fn solution(&mut self, dose: u64) {
        let syringe = Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap();
        let powder = Powder { units: Units::whole(1_500), holds: Volume::ml(3) };
        let strength = Strength::per_ml(500);
        let ask = Ask::dose(powder, None, strength, Units::whole(dose), syringe);
        let plan = plans(&ask).unwrap().remove(0);
        let movements = u32::try_from(plan.movements().len()).unwrap();
        self.then(Event::Preparation(Box::new(plan)));
        self.then(Event::Vial(Vial {
            number: 1,
            units: Units::whole(1_500),
            batch: "DEMO-1".into(),
            expiry: Date::new(2027, 2, 28),
            from: None,
            solution: None,
        }));
        for movement in 0..movements {
            self.then(Event::Drew(movement));
        }
        self.wait(4);
    }

    /// A round in which one point is left out and one left open.
    fn round(&mut self) {
        let begin = self.case().begin_next().unwrap();
        let (Act::Begin(plan) | Act::BeginOn(plan, _)) = begin else { panic!() };
        self.act(begin);
        self.wait(1);
        for point in 1..plan.points {
            self.act(match point {
                2 => Act::Skip { point, reason: SkipReason::Unsafe },
                _ => Act::Inject { point, volume: plan.bolus },
            });
        }
        self.wait(3);
        self.act(Act::Finish);
    }

    fn look(&mut self, times: &[u64], colour: Colour, pain: u8, flags: Vec<RedFlag>) {
        let look = look(times, colour, pain, flags);
        self.act(Act::Look(look));
    }

    /// Who is handed over is followed up elsewhere; every other case stays open until it is over.
    fn end(&mut self, end: End) {
        self.act(Act::End(end));
        if matches!(end, End::HandedOver(_)) {
            self.then(Event::Closed(end));
        }
    }

    fn review(&mut self, look: Look, damage: Vec<Damage>) {
        let seen = Seen::InPerson;
        self.then(Event::Review(Box::new(Review { seen, look, damage, corrected: None })));
    }

    fn appoint(&mut self, days: u64) {
        let next = self.at().after(Span::days(days));
        self.then(Event::Appointed(next));
    }
}

fn look(times: &[u64], colour: Colour, pain: u8, red_flags: Vec<RedFlag>) -> Look {
    let mut look = Look { red_flags, ..Look::of(colour, Pain::new(pain).unwrap()) };
    for time in times {
        let read = |time| Reading::timed(Span::millis(time), Span::seconds(5));
        look.readings.add(Side::Affected, read(*time)).unwrap();
        look.readings.add(Side::Opposite, read(1_500)).unwrap();
    }
    look.refill = look.readings.refill(&Protocol::default());
    look.temperature = Some(if pain > 0 { Temperature::Cool } else { Temperature::Warm });
    look.function = (pain == 0).then_some(Function::Normal);
    look
}

/// An occlusion, two rounds, done; seen again and appointed, with a slip struck out.
///
/// # Panics
/// Never, as its test proves: the story is fixed.
pub fn occlusion() -> Told {
    let mut told = Told::new("A-17");
    told.wait(2);
    told.found(Vec::new());
    told.look(&[4_200, 4_600, 4_400], Colour::Mottled, 6, Vec::new());
    told.wait(1).territory(Area::cm2(6));
    let given = Choice::Given(Some(Milligrams(300)));
    told.then(Event::Adjunct(adjunct::Act::Chose(Adjunct::Aspirin, given)));
    told.then(Event::Override { what: Overridden::Dose, reason: "Small lip".into() });
    told.then(Event::Note("Colleague told by telephone".into()));
    let slip = told.journal.head().unwrap();
    told.then(Event::Struck { entry: slip, reason: StrikeReason::Slip });
    told.solution(300);
    told.round();
    told.wait(60).look(&[2_900, 3_100], Colour::Pale, 2, Vec::new());
    told.wait(1).territory(Area::cm2(3));
    told.solution(200);
    told.round();
    told.wait(60).look(&[1_600, 1_500, 1_700], Colour::Normal, 0, Vec::new());
    told.end(End::Done);
    told.wait(24 * 60).review(look(&[1_600], Colour::Normal, 0, Vec::new()), Vec::new());
    told.appoint(1);
    told
}

/// An occlusion that came back on the third day, with pustules on skin short of blood; the treatment was
/// taken up again, with a solution in two syringes, and nobody has seen the patient since.
///
/// # Panics
/// Never, as its test proves: the story is fixed.
pub fn came_back() -> Told {
    let mut told = Told::new("A-21");
    told.found(Vec::new());
    told.look(&[3_700, 3_900], Colour::Mottled, 5, Vec::new());
    told.territory(Area::cm2(4));
    told.solution(200);
    told.round();
    told.wait(60).look(&[1_900, 1_800], Colour::Normal, 0, Vec::new());
    told.end(End::Done);
    told.appoint(3);
    let seen = look(&[3_400, 3_600], Colour::Mottled, 4, Vec::new());
    told.wait(3 * 24 * 60).review(seen.clone(), vec![Damage::Pustules]);
    let reason = "Mottled again, refill slow again".to_owned();
    told.wait(1).then(Event::TakenUp { look: Box::new(seen), reason });
    told.territory(Area::cm2(6));
    told.solution(600);
    told.round();
    told.wait(60).look(&[1_700, 1_600], Colour::Normal, 0, Vec::new());
    told.end(End::Done);
    told
}

/// An occlusion of a lip that was drawn round; one round. Not among [`all`].
///
/// # Panics
/// Never, as its test proves: the story is fixed.
pub fn drawn() -> Told {
    let mut told = Told::new("A-20");
    told.found(Vec::new());
    let corners = [(-24, 23), (-12, 15), (0, 17), (12, 15), (24, 23), (12, 24), (-12, 24)];
    let spots = corners.map(|(x, y)| Spot::new(x * Spot::PER_MM, y * Spot::PER_MM)).to_vec();
    let outline = trace(&[Stroke { kind: Kind::Skin, spots }]).unwrap().outline;
    let ground = Ground::Drawing { view: View::Front, measured: None };
    let size = Size::Outlined(Box::new(Outlined { ground, outline }));
    let skin = Territory::new(vec![Zone::UpperLip], size, &Protocol::default());
    told.then(Event::Territory(skin.unwrap()));
    told.solution(600);
    told.round();
    told.wait(60).look(&[1_600], Colour::Normal, 0, Vec::new());
    told.end(End::Done);
    told
}

/// An occlusion, done, nobody seen again yet.
pub fn just_done() -> Told {
    let mut told = Told::new("A-18");
    told.found(Vec::new());
    told.territory(Area::cm2(4));
    told.solution(200);
    told.round();
    told.wait(60).look(&[1_600], Colour::Normal, 0, Vec::new());
    told.end(End::Done);
    told
}

/// An occlusion in which the enzyme is followed by anaphylaxis; handed over.
pub fn anaphylaxis() -> Told {
    let mut told = Told::new("A-19");
    told.found(Vec::new());
    told.territory(Area::cm2(4));
    told.solution(200);
    told.round();
    told.wait(5).then(Event::Noticed(RedFlag::Airway));
    for (wait, act) in [
        (0, anaphylaxis::Act::Signs(vec![Reacting::Bronchospasm, Reacting::Skin])),
        (0, anaphylaxis::Act::Called),
        (1, anaphylaxis::Act::Adrenaline(Volume::ul(500))),
        (1, anaphylaxis::Act::Positioned),
        (5, anaphylaxis::Act::Adrenaline(Volume::ul(500))),
        (6, anaphylaxis::Act::Better),
        (10, anaphylaxis::Act::Over),
    ] {
        told.wait(wait).then(Event::Anaphylaxis(act));
    }
    told.end(End::HandedOver(HandOver::Reaction));
    told
}

fn questions(told: &mut Told, aim: Aim) {
    told.then(Event::Found(Box::new(Findings {
        filler: Filler::Hyaluronic,
        aim: Some(aim),
        ..Findings::default()
    })));
    told.then(Event::Way { urgency: Urgency::Planned, aim: Some(aim) });
    told.then(Event::Asked(Answers::default()));
    told.then(Event::Ready);
    let (dose, volume) = (Units::whole(3), Volume::ul(20));
    let placed = Placed { dose, volume, bleb: Some(Length::mm(5)) };
    told.then(Event::SkinTest(skin_test::Act::Place(placed)));
}

fn read(told: &mut Told, wheal: Length, positive: bool) {
    told.wait(20).then(Event::SkinTest(skin_test::Act::Read(skin_test::Seen {
        wheal,
        flare: positive,
        itch: positive,
        pseudopods: positive,
        systemic: false,
    })));
}

/// Planned work after a negative skin test, done.
///
/// # Panics
/// Never, as its test proves: the story is fixed.
pub fn planned() -> Told {
    let mut told = Told::new("B-2");
    questions(&mut told, Aim::All);
    read(&mut told, Length::default(), false);
    told.then(Event::Filler { volume: Volume::ul(500), dose: Units::whole(150) });
    told.solution(150);
    let plan = told.case().next_round().unwrap();
    told.act(Act::Begin(plan));
    for point in 1..=plan.points {
        let volume = told.case().share(&plan, point);
        told.act(Act::Inject { point, volume });
    }
    told.act(Act::Finish);
    told.end(End::Done);
    told
}

/// Planned work that a positive skin test stopped.
pub fn tested() -> Told {
    let mut told = Told::new("B-3");
    questions(&mut told, Aim::Part);
    read(&mut told, Length::mm(12), true);
    told.then(Event::Closed(End::Stopped));
    told
}

/// A case that nothing was done in.
pub fn opened() -> Told {
    Told::new("C-1")
}

/// All of them, by name.
pub fn all() -> [(&'static str, Told); 7] {
    [
        ("occlusion", occlusion()),
        ("came-back", came_back()),
        ("just-done", just_done()),
        ("anaphylaxis", anaphylaxis()),
        ("planned", planned()),
        ("tested", tested()),
        ("opened", opened()),
    ]
}

#[cfg(test)]
mod tests;
