//! When an intradermal test counts as positive: the guidelines differ, so each stands here.

use super::source::{INTRADERMAL_2020, LABEL_US, Source};
use crate::measure::{Length, Span, Units, Volume};

/// Who says when a test is positive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scheme {
    /// European Academy of Allergy and Clinical Immunology.
    Eaaci,
    /// British Society for Allergy and Clinical Immunology.
    Bsaci,
    /// Société Française d'Anesthésie et de Réanimation.
    Sfar,
    /// European Society of Contact Dermatitis.
    Escd,
    /// Macy.
    Macy,
    /// The US label of hyaluronidase.
    UsLabel,
}

/// What the scheme asks of the wheal. `Wi` is the bleb right after injection.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Criterion {
    /// Larger than the bleb by at least this, with a flare.
    LargerBy(Length),
    /// At least this many times the bleb.
    TimesBleb(u64),
    /// At least this wide.
    Wide(Length),
    /// At least this wide, with erythema.
    WideWithErythema(Length),
    /// A wheal with pseudopods, and itching.
    PseudopodsAndItch,
}

/// One scheme in full.
#[derive(Clone, Copy, Debug)]
pub struct Reading {
    /// Who says so.
    pub scheme: Scheme,
    /// Least volume injected.
    pub volume_low: Volume,
    /// Most volume injected.
    pub volume_high: Volume,
    /// Earliest reading.
    pub from: Span,
    /// Latest reading.
    pub to: Span,
    /// What makes it positive.
    pub criterion: Criterion,
    /// Where it is printed.
    pub source: Source,
}

const fn reading(
    scheme: Scheme,
    (volume_low, volume_high): (u64, u64),
    (from, to): (u64, u64),
    criterion: Criterion,
    source: Source,
) -> Reading {
    Reading {
        scheme,
        volume_low: Volume::ul(volume_low),
        volume_high: Volume::ul(volume_high),
        from: Span::minutes(from),
        to: Span::minutes(to),
        criterion,
        source,
    }
}

/// Every scheme, as printed.
pub const ALL: &[Reading] = &[
    reading(
        Scheme::Eaaci,
        (20, 50),
        (15, 20),
        Criterion::LargerBy(Length::mm(3)),
        INTRADERMAL_2020,
    ),
    reading(
        Scheme::Bsaci,
        (30, 30),
        (20, 30),
        Criterion::LargerBy(Length::mm(3)),
        INTRADERMAL_2020,
    ),
    reading(Scheme::Sfar, (20, 50), (20, 20), Criterion::TimesBleb(2), INTRADERMAL_2020),
    reading(Scheme::Escd, (40, 40), (30, 30), Criterion::Wide(Length::mm(10)), INTRADERMAL_2020),
    reading(
        Scheme::Macy,
        (20, 20),
        (15, 15),
        Criterion::WideWithErythema(Length::mm(5)),
        INTRADERMAL_2020,
    ),
    reading(Scheme::UsLabel, (20, 20), (5, 30), Criterion::PseudopodsAndItch, LABEL_US),
];

/// The bleb that 0.02 mL leaves: smallest, median and largest. Source: `INTRADERMAL_2020`.
pub const BLEB_OF_20_UL: (Length, Length, Length) = (Length::mm(2), Length::mm(5), Length::mm(10));

/// The dose of the US label's test. Source: `LABEL_US`.
pub const LABEL_DOSE: Units = Units::whole(3);

/// Most volume that any scheme injects. Source: `INTRADERMAL_2020`.
pub const MOST_VOLUME: Volume = Volume::ul(50);
