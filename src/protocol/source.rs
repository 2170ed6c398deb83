//! Where a number comes from. Authors are named here and nowhere else.

/// A publication, label or standard that a clinical value is taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Source {
    /// Who, what, where, when.
    pub citation: &'static str,
    /// DOI, PMID or PMC number as it was seen, if it was.
    pub locator: &'static str,
}

macro_rules! sources {
    ($($name:ident: $citation:literal, $locator:literal;)*) => {
        $(#[doc = $citation] pub const $name: Source =
            Source { citation: $citation, locator: $locator };)*
        /// Every source, for the list that a user can read.
        pub const ALL: &[Source] = &[$($name),*];
    };
}

sources! {
    HIGH_DOSE_2017: "DeLorenzi C, Aesthet Surg J 2017;37(7):814-825", "";
    CASES_2023: "Al-Alam Sansur S & Destang S, Int J Oral Maxillofac Surg 2023;52:79-87", "doi:10.1016/j.ijom.2022.07.006";
    SCARS_2024: "Boey JJJ et al, Aesthet Plast Surg 2024;48(19):3971-3978", "doi:10.1007/s00266-024-04334-1";
    FLOODING_2023: "Schelke LW et al, Aesthet Surg J 2023;43(1):86-96", "doi:10.1093/asj/sjac227";
    CONSENSUS_2015: "Cohen JL et al, Aesthet Surg J 2015;35(7):844-849", "";
    STAGES_2021: "Murray G et al, J Clin Aesthet Dermatol 2021;14(5):E61-E69, table 3", "PMC8211329";
    OCCLUSION_2020: "King M et al, J Clin Aesthet Dermatol 2020;13(1):E53-E58", "";
    TRADE_2022: "Faulkner, Aesthetics Journal, 15 November 2022", "";
    PER_AREA_2018: "Ciancio F et al, F1000Research 2018;7:1388", "";
    VISION_2021: "Walker L et al, J Clin Aesthet Dermatol 2021;14(12):E84-E94", "PMC8794490";
    RABBIT_2019: "Li et al, Aesthet Plast Surg 2019", "doi:10.1007/s00266-019-01398-2";
    LATE_2015: "Sun et al, Plast Reconstr Surg, October 2015", "";
    DELAYED_2020: "Ors S, Aesthet Plast Surg 2020;44:1778-1785", "doi:10.1007/s00266-020-01759-2";
    INTERVAL_2020: "Lee W et al, Plast Reconstr Surg 2020;145:957-964 (rabbit)", "";
    REFILL_2015: "Fleming S et al, Arch Dis Child 2015;100:239-249", "doi:10.1136/archdischild-2014-307079";
    REFILL_1988: "Schriger DL & Baraff L, Ann Emerg Med 1988;17:932-935", "doi:10.1016/S0196-0644(88)80675-9";
    REFILL_2008: "Anderson B et al, Am J Emerg Med 2008;26:62-65", "doi:10.1016/j.ajem.2007.06.026";
    REFILL_2022: "Ann Intensive Care 2022 (fingertip, intensive care)", "PMC9375797";
    LABEL_UK: "UK product characteristics, hyaluronidase 1500 IU powder", "";
    LABEL_US: "US labels, hyaluronidase 150 and 200 USP units/mL", "";
    LABEL_DE: "German and Austrian labels, hyaluronidase 150, 300 and 1500 IU powder", "";
    MONOGRAPH_BP: "British Pharmacopoeia, Hyaluronidase Injection", "";
    MONOGRAPH_USP: "United States Pharmacopeia 32, Hyaluronidase Injection", "";
    DURATION_2018: "King M et al, J Clin Aesthet Dermatol 2018;11(6):E61-E68", "";
    WASP_2024: "Bertlich M et al, Br J Dermatol 2024;(6):1000-1007", "";
    VENOM_2024: "Grosch J et al, Toxins 2024;16(11):498", "doi:10.3390/toxins16110498";
    INTRADERMAL_2020: "Barbaud A, Front Med 2020;7:156, table 1", "PMC7243670";
    NODULES_2018: "Alam M et al, JAMA Dermatol 2018;154:765-772", "doi:10.1001/jamadermatol.2018.0515";
    BOLUS_2021: "J Plast Reconstr Aesthet Surg 2020/21 (human, 0.2 mL boluses)", "";
    RESISTANT_2025: "Safran T et al, Aesthet Surg J 2025 (in vitro)", "";
    TISSUE: "Casabona G, Dermatol Surg (human tissue)", "";
    PERIOCULAR_2024: "Wilde et al, Plast Reconstr Surg Glob Open 2024;12:e5765", "PMC11037726";
    ANAPHYLAXIS_UK: "Resuscitation Council UK, Emergency treatment of anaphylaxis, May 2021", "";
    ANAPHYLAXIS_UK_REVIEW: "Clin Med 2022;22:332-339, table 2", "PMC9345203";
    OBSERVATION_AU: "Australian Commission on Safety and Quality in Health Care, Acute Anaphylaxis Clinical Care Standard, quality statement 5", "";
    ANAPHYLAXIS_AU: "ASCIA, Acute management of anaphylaxis", "";
    ASPIRIN_LABEL_UK: "UK product characteristics, aspirin 300 mg and dispersible aspirin", "";
    ASPIRIN_LEAFLET_UK: "UK patient leaflet, aspirin", "";
    ASPIRIN_QUOTED: "A paper on occlusion that another page quotes without naming it", "";
    ASPIRIN_CASE_2021: "Ugonabo N & Kanchanapoomi Levin M, J Drugs Dermatol 2021;20(3):338 (one case)", "";
    OXYGEN_2024: "Fakih-Gomez N et al, Aesthet Plast Surg 2024", "doi:10.1007/s00266-024-03920-7";
    REFILL_1993: "Gorelick MH et al, Pediatrics 1993;92:699-702", "PMID 8414858";
    SYRINGE_2017: "ISO 7886-1:2017, as worked by Surgical Materials Testing Laboratory, Cardiff, 2016", "";
    FACE_2019: "Maxillofac Plast Reconstr Surg 2019, table 9 (one population)", "doi:10.1186/s40902-019-0191-7";
    PALM_2013: "Rhodes J et al, Br J Dermatol 2013;169:76-84", "doi:10.1111/bjd.12290";
    CARD_ISO: "ISO/IEC 7810, Identification cards, format ID-1", "";
    FACE_BURNS: "Chinese rule of nines, burns surgery: the face is 3 % of body surface", "";
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_source_stands_twice() {
        for (place, source) in ALL.iter().enumerate() {
            assert!(ALL[..place].iter().all(|other| other.citation != source.citation));
        }
    }
}
