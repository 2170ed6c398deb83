//! Every scenario, played by a scripted clinician to a good end and to a bad one.

mod clinician;
mod signs;
mod skin;
mod told;

use super::*;
use crate::measure::Moment;

/// 26 November 2026, 10:00 UTC.
const START: Moment = Moment::from_millis(1_795_687_200_000);

fn verdict(debrief: &Debrief, what: What) -> Option<Verdict> {
    debrief.findings.iter().find(|finding| finding.what == what).map(|finding| finding.verdict)
}

fn faults(debrief: &Debrief) -> Vec<What> {
    let faults = debrief.findings.iter().filter(|finding| finding.verdict != Verdict::Good);
    faults.map(|finding| finding.what).collect()
}
