//! Rehearsal: a simulated patient, the scenarios that it comes in, and the debrief of what was done.
//!
//! What the patient looks like is a pure function of the scenario, the start, the journal and the
//! moment: [`condition()`]. It is the journal of any case, written by the same screens, so that what is
//! rehearsed is what will be done. Nothing else is asked: no clock, no chance, no state of its own.
//! The scatter of refill from reading to reading is drawn from the scenario and the minute.
//!
//! # The model, and what it leaves out
//!
//! It is made for practising the order of things and the patience between them. It is **invented for
//! teaching**: every figure stands in [`simulation`](crate::protocol::simulation), and no clinical
//! evidence stands behind any. Nobody may learn from it how much enzyme a real patient needs.
//!
//! * **Place.** The zones named count, not where an outline lies: points are taken to lie evenly over
//!   the surface told. Without a zone named the place is taken for right. Two rounds that leave out
//!   the same points are not told from two that leave out different ones.
//! * **Dose.** The units on each cm² and the skin reached decide, whichever falls short more. More
//!   than is needed does neither good nor harm, although pooled cases found no gain, and perhaps
//!   harm, in more.
//! * **Time.** Effect comes with a half-time and stays. The enzyme is not used up, washed out or
//!   inhibited by medicines, and the strength of a made-up solution does not fade.
//! * **A vial out of date** acts with part of its units. That part is an assumption; a real one may
//!   act fully or not at all. One that nobody looked at is the one on top of the bag.
//! * **Adjuncts** have no effect: pooled cases found no significant one. They are debriefed.
//! * **Warmth and cold** do not change what refill reads, and pressing does not either.
//! * **A vein** opens as an artery does. Real venous occlusion may need more, and longer.
//! * **Sight** cannot be mended here. Only noticing and handing over count; nothing in it says how
//!   much time there is.
//! * **A reaction** has one course, without a second phase. Fluids and position do nothing in it.
//! * **A case seen late** mends in part. A real one may mend fully, or lose skin all the same.
//! * Lost skin does not spread, bleed or get infected, and nobody faints, refuses or goes home.
//!
//! A [`debrief()`] judges by the same model, and by paces that are proposals for practice, not
//! deadlines.

mod coming;
mod condition;
mod course;
mod debrief;
mod given;
mod progress;
mod scenario;

pub use condition::{Condition, Says, condition};
pub use debrief::{
    Debrief, Figure, Finding, Given, Outcome, Overdue, Times, Verdict, What, debrief,
};
pub use progress::{Best, Progress, progress};
pub use scenario::{Bag, Brief, Comes, Coming, InBag, Picture, RightEnd, Scenario, When};

#[cfg(test)]
mod tests;
