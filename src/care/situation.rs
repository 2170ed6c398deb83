//! Which it is: a blocked artery, a correction to be taken away, something for others, or nothing
//! for hyaluronidase.

use super::refill::{self, Colour, Person, Refill, Verdict};
use crate::measure::{Moment, Span};
use crate::protocol::Protocol;
use crate::protocol::window::{self, Window};
use serde::{Deserialize, Serialize};

/// A sign that goes before everything else.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum RedFlag {
    /// Any change of sight, or pain in the eye.
    Sight,
    /// Face, arm or speech weakness, confusion, sudden severe headache.
    Stroke,
    /// Airway, breathing or collapse: a severe reaction.
    Airway,
}

/// A sign on the skin.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Sign {
    /// Pale or white.
    Pallor,
    /// Mottled, net-like.
    Mottling,
    /// Blue or dusky.
    Blue,
    /// Slow refill, by eye.
    SlowRefill,
    /// Pain out of proportion, or growing.
    Pain,
    /// Cooler than the other side.
    Coolness,
    /// Pustules.
    Pustules,
    /// Black, firm, or an open wound.
    Blackening,
}

impl Sign {
    /// Whether this sign alone makes an occlusion to be treated. Pain and coolness alone ask for
    /// refill to be read first.
    const fn suffices(self) -> bool {
        !matches!(self, Self::Pain | Self::Coolness)
    }

    /// Whether skin may already be dying.
    const fn late(self) -> bool {
        matches!(self, Self::Pustules | Self::Blackening)
    }
}

/// What was injected.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Filler {
    /// Hyaluronic acid.
    Hyaluronic,
    /// Something else: the enzyme does not act on it.
    Other,
    /// Nobody knows.
    #[default]
    Unknown,
}

/// How much of a correction is to go.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Aim {
    /// Part of it.
    Part,
    /// All of it.
    All,
}

/// Something at the site that forbids planned work there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum SiteProblem {
    /// Infected.
    Infection,
    /// Acutely inflamed.
    Inflammation,
    /// A tumour known or suspected.
    Malignancy,
    /// Swelling from a bite or sting.
    Sting,
}

/// What was found at the start. Empty lists mean that it was asked and there was none.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Findings {
    /// Signs that go before everything.
    pub red_flags: Vec<RedFlag>,
    /// Signs on the skin.
    pub signs: Vec<Sign>,
    /// What was injected.
    pub filler: Filler,
    /// How much is to go, when nothing is wrong with the skin.
    pub aim: Option<Aim>,
    /// What forbids planned work at the site.
    pub site: Vec<SiteProblem>,
    /// When the first sign was seen.
    pub onset: Option<Moment>,
    /// Refill, both sides.
    pub refill: Option<Refill>,
    /// Whom the limits depend on.
    pub person: Person,
}

/// Why hyaluronidase is not the answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotFor {
    /// The filler is not hyaluronic acid. With signs of occlusion it is an emergency all the same.
    OtherFiller,
    /// The site forbids planned work.
    Site(SiteProblem),
}

/// What to keep in mind on the way that was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caution {
    /// The filler is not known to be hyaluronic acid.
    FillerUnknown,
    /// The enzyme can spread what is wrong at the site; in an occlusion that is weighed, not
    /// forbidden.
    Site(SiteProblem),
    /// Skin may be dying: a specialist is needed as well.
    LateSigns,
    /// Refill is quick and the skin blue: not reassuring.
    VenousPicture,
    /// Later than every window reported. Treatment is still tried.
    PastWindows,
}

/// What is still to be answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missing {
    /// Whether part or all is to go.
    Aim,
    /// Refill on both sides: the signs alone do not decide.
    Refill,
}

/// What was seen that makes it an occlusion.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ground {
    /// A sign.
    Sign(Sign),
    /// Refill slow or doubtful together with a sign.
    Refill,
}

/// What the findings amount to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Call for help first.
    HandOver(Vec<RedFlag>),
    /// An artery is blocked: treat at once.
    Urgent(Vec<Ground>),
    /// A correction is to be taken away calmly.
    Planned(Aim),
    /// Not for hyaluronidase.
    NotFor(Vec<NotFor>),
    /// Something decides that was not yet answered.
    Open(Missing),
}

/// The outcome and what to keep in mind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Triage {
    /// What the findings amount to.
    pub outcome: Outcome,
    /// What to keep in mind.
    pub cautions: Vec<Caution>,
    /// Refill as judged, if it was read.
    pub refill: Option<refill::Judgement>,
}

impl Findings {
    /// Colour as the signs have it, the worst first.
    pub fn colour(&self) -> Colour {
        let has = |sign| self.signs.contains(&sign);
        if has(Sign::Blackening) {
            Colour::Black
        } else if has(Sign::Blue) {
            Colour::Blue
        } else if has(Sign::Mottling) {
            Colour::Mottled
        } else if has(Sign::Pallor) {
            Colour::Pale
        } else {
            Colour::Normal
        }
    }
}

/// Tells which it is. `now` is only compared with the onset.
pub fn triage(findings: &Findings, now: Moment, protocol: &Protocol) -> Triage {
    let judged = findings
        .refill
        .map(|refill| refill::judge(refill, findings.colour(), findings.person, protocol));
    let mut cautions = Vec::new();
    let outcome = if findings.red_flags.is_empty() {
        decide(findings, judged)
    } else {
        Outcome::HandOver(findings.red_flags.clone())
    };
    if matches!(outcome, Outcome::Urgent(_) | Outcome::Planned(_))
        && findings.filler == Filler::Unknown
    {
        cautions.push(Caution::FillerUnknown);
    }
    if matches!(outcome, Outcome::Urgent(_)) {
        cautions.extend(findings.site.iter().map(|problem| Caution::Site(*problem)));
        if findings.signs.iter().any(|sign| sign.late()) {
            cautions.push(Caution::LateSigns);
        }
        if findings.onset.is_some_and(|onset| windows(now.since(onset)).all(|(_, passed)| passed)) {
            cautions.push(Caution::PastWindows);
        }
    }
    if judged.is_some_and(|judged| judged.verdict == Verdict::VenousPicture) {
        cautions.push(Caution::VenousPicture);
    }
    Triage { outcome, cautions, refill: judged }
}

fn decide(findings: &Findings, judged: Option<refill::Judgement>) -> Outcome {
    let mut grounds: Vec<Ground> = findings
        .signs
        .iter()
        .filter(|sign| sign.suffices())
        .map(|sign| Ground::Sign(*sign))
        .collect();
    let slow = judged.is_some_and(|judged| match judged.verdict {
        Verdict::Slow | Verdict::VenousPicture => true,
        // A doubtful reading decides only beside a sign that asked for it.
        Verdict::Doubtful => !findings.signs.is_empty(),
        Verdict::Back => false,
    });
    if slow {
        grounds.push(Ground::Refill);
    }
    if !grounds.is_empty() {
        return if findings.filler == Filler::Other {
            Outcome::NotFor(vec![NotFor::OtherFiller])
        } else {
            Outcome::Urgent(grounds)
        };
    }
    // A quick time of one side clears nobody of a sign: no limit was measured on a face.
    if !findings.signs.is_empty() && !judged.is_some_and(|judged| judged.compared) {
        return Outcome::Open(Missing::Refill);
    }
    let mut not_for: Vec<NotFor> =
        findings.site.iter().map(|problem| NotFor::Site(*problem)).collect();
    if findings.filler == Filler::Other {
        not_for.insert(0, NotFor::OtherFiller);
    }
    if !not_for.is_empty() {
        return Outcome::NotFor(not_for);
    }
    findings.aim.map_or(Outcome::Open(Missing::Aim), Outcome::Planned)
}

/// The windows that sources reported, and whether each has passed since onset.
pub fn windows(since: Span) -> impl Iterator<Item = (&'static Window, bool)> {
    window::ALL.iter().map(move |window| (window, since > window.within))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn outcome(findings: Findings) -> Outcome {
        triage(&findings, Moment::from_millis(0), &Protocol::default()).outcome
    }

    fn signs(signs: &[Sign]) -> Findings {
        Findings { signs: signs.to_vec(), filler: Filler::Hyaluronic, ..Findings::default() }
    }

    #[test]
    fn sight_goes_before_everything() {
        let findings = Findings { red_flags: vec![RedFlag::Sight], ..signs(&[Sign::Pallor]) };
        assert_eq!(outcome(findings), Outcome::HandOver(vec![RedFlag::Sight]));
    }

    #[test]
    fn a_sign_of_ischaemia_is_urgent_whatever_the_aim() {
        let findings = Findings { aim: Some(Aim::Part), ..signs(&[Sign::Mottling]) };
        assert_eq!(outcome(findings), Outcome::Urgent(vec![Ground::Sign(Sign::Mottling)]));
    }

    #[test]
    fn pain_alone_asks_for_refill() {
        assert_eq!(outcome(signs(&[Sign::Pain])), Outcome::Open(Missing::Refill));
        let read = |affected| Findings {
            refill: Some(Refill {
                affected: Span::millis(affected),
                opposite: Some(Span::millis(1_500)),
            }),
            ..signs(&[Sign::Pain])
        };
        assert_eq!(outcome(read(2_400)), Outcome::Urgent(vec![Ground::Refill]));
        assert_eq!(outcome(read(1_600)), Outcome::Open(Missing::Aim));
        let one_side = Findings {
            refill: Some(Refill { affected: Span::millis(1_600), opposite: None }),
            ..signs(&[Sign::Pain])
        };
        assert_eq!(outcome(one_side), Outcome::Open(Missing::Refill));
    }

    #[test]
    fn other_filler_is_not_for_the_enzyme_even_when_urgent() {
        let findings = Findings { filler: Filler::Other, ..signs(&[Sign::Pallor]) };
        assert_eq!(outcome(findings), Outcome::NotFor(vec![NotFor::OtherFiller]));
    }

    #[test]
    fn infection_forbids_planned_work_but_only_cautions_an_urgent_case() {
        let site = vec![SiteProblem::Infection];
        let planned = Findings { site: site.clone(), aim: Some(Aim::All), ..signs(&[]) };
        assert_eq!(outcome(planned), Outcome::NotFor(vec![NotFor::Site(SiteProblem::Infection)]));
        let urgent = Findings { site, ..signs(&[Sign::Pallor]) };
        let triage = triage(&urgent, Moment::from_millis(0), &Protocol::default());
        assert!(matches!(triage.outcome, Outcome::Urgent(_)));
        assert_eq!(triage.cautions, vec![Caution::Site(SiteProblem::Infection)]);
    }

    #[test]
    fn late_is_said_and_still_treated() {
        let onset = Moment::from_millis(0);
        let findings = Findings { onset: Some(onset), ..signs(&[Sign::Blackening]) };
        let triage = triage(&findings, onset.after(Span::days(3)), &Protocol::default());
        assert!(matches!(triage.outcome, Outcome::Urgent(_)));
        assert!(triage.cautions.contains(&Caution::PastWindows));
        assert!(triage.cautions.contains(&Caution::LateSigns));
    }

    #[test]
    fn planned_needs_an_aim() {
        assert_eq!(outcome(signs(&[])), Outcome::Open(Missing::Aim));
        assert_eq!(
            outcome(Findings { aim: Some(Aim::All), ..signs(&[]) }),
            Outcome::Planned(Aim::All)
        );
    }
}
