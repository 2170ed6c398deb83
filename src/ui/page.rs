//! Which page is shown, and how the address says so.
//!
//! All pages share one path and differ in the query. So the app opens on any static host under any
//! sub-path, and a reload finds the page again without the host's help.

use crate::case::{CaseId, Step};
use crate::kit::LotId;
use leptos_router::params::ParamsMap;

/// A page of the app.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Page {
    /// Open cases and everything else, one tap away.
    Home,
    /// A case at the step where it stands, or at one looked back to.
    Case(CaseId, Option<Step>),
    /// Drawing round the skin without blood.
    Outline(CaseId),
    /// Drawing it again after a look, and back to what is next.
    Redraw(CaseId),
    /// What is given besides the enzyme.
    Besides(CaseId),
    /// What the people who take a case over are told.
    HandOver(CaseId),
    /// What was recorded in a case.
    Timeline(CaseId),
    /// Everything that can leave the phone of a case.
    Papers(CaseId),
    /// One of them, to be read, printed or handed on.
    Paper(CaseId, Paper),
    /// The patient seen again, until the case is closed.
    FollowUp(CaseId),
    /// The photos of a case, side by side.
    Photos(CaseId),
    /// The anaphylaxis sheet, in a case or without one.
    Anaphylaxis(Option<CaseId>),
    /// The calculations without a case.
    Sums,
    /// What is at hand, and whether it would do.
    Kit,
    /// Every case, to be found again.
    Records,
    /// The cases that a lot was used in, to be found again.
    Found(LotId),
    /// The clinic's values and their sources.
    Values,
    /// Whom the clinic calls.
    Contacts,
    /// What this phone can do when something falls due, tried out.
    Ringing,
    /// The whole way against a simulated patient and a fast clock.
    Rehearsal,
    /// The passcode of this phone.
    Lock,
    /// Everything in one file, made and taken in.
    Backup,
    /// The language that the app speaks.
    Language,
    /// What the app is, is not, and does with data.
    About,
}

/// A text about a case, for people.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// The clinical note, for colleagues and the patient's file.
    Note,
    /// The patient's own sheet.
    Patient,
    /// The report of an adverse reaction.
    Report,
}

/// Names of the papers in the address; never shown.
const PAPERS: [(&str, Paper); 3] =
    [("note", Paper::Note), ("patient", Paper::Patient), ("report", Paper::Report)];

const PAGE: &str = "page";
const CASE: &str = "case";
const STEP: &str = "step";
const LOT: &str = "lot";

/// Names of the steps in the address; never shown.
const STEPS: [(&str, Step); 5] = [
    ("situation", Step::Situation),
    ("allergy", Step::Allergy),
    ("strength", Step::Strength),
    ("syringe", Step::Syringe),
    ("rounds", Step::Rounds),
];

impl Page {
    /// The case that it belongs to, if it belongs to one.
    pub const fn of_case(self) -> Option<CaseId> {
        match self {
            Self::Case(case, _)
            | Self::Outline(case)
            | Self::Redraw(case)
            | Self::Besides(case)
            | Self::HandOver(case)
            | Self::Timeline(case)
            | Self::Papers(case)
            | Self::Paper(case, _)
            | Self::FollowUp(case)
            | Self::Photos(case)
            | Self::Anaphylaxis(Some(case)) => Some(case),
            Self::Home
            | Self::Anaphylaxis(None)
            | Self::Sums
            | Self::Kit
            | Self::Records
            | Self::Found(_)
            | Self::Values
            | Self::Contacts
            | Self::Ringing
            | Self::Rehearsal
            | Self::Lock
            | Self::Backup
            | Self::Language
            | Self::About => None,
        }
    }

    /// Reads the address. What names no page is home.
    pub fn read(query: &ParamsMap) -> Self {
        Self::named(&|name| query.get_str(name))
    }

    /// The same from what stands under each name.
    fn named<'a>(query: &dyn Fn(&'static str) -> Option<&'a str>) -> Self {
        let case = query(CASE).and_then(|text| text.parse::<CaseId>().ok());
        let step = query(STEP);
        let paper = |name| PAPERS.iter().find(|(other, _)| *other == name).map(|(_, paper)| *paper);
        if let (Some(paper), Some(case)) = (query(PAGE).and_then(paper), case) {
            return Self::Paper(case, paper);
        }
        match (query(PAGE), case) {
            (Some("anaphylaxis"), case) => Self::Anaphylaxis(case),
            (Some("outline"), Some(case)) => Self::Outline(case),
            (Some("redraw"), Some(case)) => Self::Redraw(case),
            (Some("besides"), Some(case)) => Self::Besides(case),
            (Some("timeline"), Some(case)) => Self::Timeline(case),
            (Some("handover"), Some(case)) => Self::HandOver(case),
            (Some("papers"), Some(case)) => Self::Papers(case),
            (Some("followup"), Some(case)) => Self::FollowUp(case),
            (Some("photos"), Some(case)) => Self::Photos(case),
            (Some("kit"), _) => Self::Kit,
            (Some("records"), _) => {
                let lot = query(LOT).and_then(|text| text.parse().ok());
                lot.map_or(Self::Records, |hash| Self::Found(LotId(hash)))
            }
            (Some("contacts"), _) => Self::Contacts,
            (Some("ringing"), _) => Self::Ringing,
            (Some("rehearsal"), _) => Self::Rehearsal,
            (Some("sums"), _) => Self::Sums,
            (Some("values"), _) => Self::Values,
            (Some("lock"), _) => Self::Lock,
            (Some("backup"), _) => Self::Backup,
            (Some("language"), _) => Self::Language,
            (Some("about"), _) => Self::About,
            (_, Some(case)) => {
                let step =
                    STEPS.iter().find(|(name, _)| Some(*name) == step).map(|(_, step)| *step);
                Self::Case(case, step)
            }
            _ => Self::Home,
        }
    }

    /// The query that leads here.
    pub fn query(self) -> String {
        match self {
            Self::Home => String::from("?"),
            Self::Case(case, None) => format!("?{CASE}={case}"),
            Self::Case(case, Some(step)) => {
                let name =
                    STEPS.iter().find(|(_, other)| *other == step).map_or("", |(name, _)| name);
                format!("?{CASE}={case}&{STEP}={name}")
            }
            Self::Outline(case) => format!("?{PAGE}=outline&{CASE}={case}"),
            Self::Redraw(case) => format!("?{PAGE}=redraw&{CASE}={case}"),
            Self::Besides(case) => format!("?{PAGE}=besides&{CASE}={case}"),
            Self::HandOver(case) => format!("?{PAGE}=handover&{CASE}={case}"),
            Self::Timeline(case) => format!("?{PAGE}=timeline&{CASE}={case}"),
            Self::Papers(case) => format!("?{PAGE}=papers&{CASE}={case}"),
            Self::Paper(case, paper) => {
                let name =
                    PAPERS.iter().find(|(_, other)| *other == paper).map_or("", |(name, _)| name);
                format!("?{PAGE}={name}&{CASE}={case}")
            }
            Self::FollowUp(case) => format!("?{PAGE}=followup&{CASE}={case}"),
            Self::Photos(case) => format!("?{PAGE}=photos&{CASE}={case}"),
            Self::Kit => format!("?{PAGE}=kit"),
            Self::Records => format!("?{PAGE}=records"),
            Self::Found(LotId(lot)) => format!("?{PAGE}=records&{LOT}={lot}"),
            Self::Anaphylaxis(Some(case)) => format!("?{PAGE}=anaphylaxis&{CASE}={case}"),
            Self::Anaphylaxis(None) => format!("?{PAGE}=anaphylaxis"),
            Self::Sums => format!("?{PAGE}=sums"),
            Self::Values => format!("?{PAGE}=values"),
            Self::Contacts => format!("?{PAGE}=contacts"),
            Self::Ringing => format!("?{PAGE}=ringing"),
            Self::Rehearsal => format!("?{PAGE}=rehearsal"),
            Self::Lock => format!("?{PAGE}=lock"),
            Self::Backup => format!("?{PAGE}=backup"),
            Self::Language => format!("?{PAGE}=language"),
            Self::About => format!("?{PAGE}=about"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// What an address may hold: the app's own words, and anything else.
    fn word() -> impl Strategy<Value = String> {
        let ours = prop::sample::select(
            &[
                "anaphylaxis",
                "outline",
                "redraw",
                "besides",
                "timeline",
                "handover",
                "papers",
                "followup",
                "photos",
                "kit",
                "records",
                "contacts",
                "ringing",
                "rehearsal",
                "sums",
                "values",
                "lock",
                "about",
                "note",
                "patient",
                "report",
                "rounds",
                "syringe",
                "",
                "0000000000000000000000000000000a",
                "ca978112ca1bbdcafac231b39a23dc4da786eff8147c4e72b9807785afee48bb",
            ][..],
        );
        prop_oneof![4 => ours.prop_map(str::to_owned), 1 => any::<String>(), 1 => "[0-9a-f]{32,64}"]
    }

    proptest! {
        /// Any address names a page, and that page's own address leads to it again.
        #[test]
        fn any_address_is_read(
            pairs in prop::collection::btree_map(
                prop::sample::select(&[PAGE, CASE, STEP, LOT, "other"][..]), word(), 0..6,
            ),
        ) {
            let page = Page::named(&|name| pairs.get(name).map(String::as_str));
            let own = page.query();
            let of_own = |name: &'static str| {
                let mut pairs =
                    own.trim_start_matches('?').split('&').filter_map(|pair| pair.split_once('='));
                pairs.find_map(|(other, value)| (other == name).then_some(value))
            };
            prop_assert_eq!(Page::named(&of_own), page);
        }
    }
}
