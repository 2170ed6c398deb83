//! An occlusion, from the start screen to the end.

use super::look::type_refill;
use super::solution::{Made, make, ml, units};
use crate::phone::Phone;
use std::time::Duration;

/// Units per mL, as the clinic's values are supplied.
pub const STRENGTH: u64 = 500;
/// Units in a vial.
pub const VIAL: u64 = 1500;
/// Microlitres at each point.
pub const BOLUS: u64 = 100;
/// Points on the usual upper lip: 11.7 cm², one point for each cm² begun.
pub const POINTS: u64 = 12;
/// Thousandths of a unit at each point: 0.1 mL of 500 units/mL.
pub const AT_POINT: u64 = STRENGTH * BOLUS;

/// From the start screen to the first movement of the plunger, by the shortest way.
pub async fn to_first_draw(phone: &mut Phone) {
    phone.at("home").await;
    phone.count_taps_from_here();
    phone.tap("New case").await;
    phone.headed("Any of these now?").await;
    from_situation(phone).await;
}

/// The same from the first question on.
pub async fn from_situation(phone: &mut Phone) {
    phone.at("situation").await;
    phone.go_on("None of these").await;
    phone.headed("What does the skin show?").await;
    phone.tick("Pale or white").await;
    phone.at("skin").await;
    phone.go_on("Urgent").await;
    phone.headed("Ready for a reaction?").await;
    phone.at("readiness").await;
    phone.go_on("Ready").await;
    phone.headed("Where is the skin without blood?").await;
    phone.tick("Upper lip").await;
    doses_agree(phone).await;
    phone.at("strength").await;
    phone.go_on("500 units/mL").await;
    phone.see("Movement 1 of").await;
    phone.pause().await;
}

/// What the strength screen proposes for an upper lip, against the test's own arithmetic.
async fn doses_agree(phone: &mut Phone) {
    let round = POINTS * AT_POINT;
    phone.reads("This round", &format!("{} units", units(round))).await;
    phone.reads("Points", &POINTS.to_string()).await;
    phone.reads("Volume", &format!("{} mL", ml(POINTS * BOLUS))).await;
    // One lip is one facial area of 500 units.
    phone.reads("By facial area", "500 units").await;
    // 40 units on each of 11.7 cm².
    phone.reads("As published, per cm²", "468 units").await;
}

/// What was made is enough for the round.
pub async fn enough(phone: &mut Phone, made: &Made) {
    let volume: u64 = made.syringes.iter().sum();
    let enough = volume >= POINTS * BOLUS && made.milli >= POINTS * AT_POINT;
    phone.sure(enough, &format!("too little was made: {made:?}")).await;
    let strength = made.milli == volume * STRENGTH;
    phone.sure(strength, &format!("another strength was made: {made:?}")).await;
}

/// Begins a round, and reads what it will take.
pub async fn begin(phone: &mut Phone, number: u64) {
    phone.reads("This round", &format!("{} units", units(POINTS * AT_POINT))).await;
    phone.reads("Volume", &format!("{} mL", ml(POINTS * BOLUS))).await;
    phone.reads("At each point", &format!("{} units", units(AT_POINT))).await;
    phone.reads("Strength", &format!("{} units/mL", units(STRENGTH * 1000))).await;
    phone.at(&format!("round-{number}")).await;
    phone.tap(&format!("Begin round {number}")).await;
    phone.headed("Point 1 0.10 mL").await;
}

/// How many points are in, and how many were left out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Points {
    /// Injected.
    pub done: u64,
    /// Left out.
    pub skipped: u64,
}

impl Points {
    /// The next point's number.
    pub const fn next(self) -> u64 {
        self.done + self.skipped + 1
    }

    /// Waits until the screen stands at the next point, with the sums that follow.
    pub async fn shown(self, phone: &mut Phone) {
        let next = self.next();
        if next > POINTS {
            phone.headed(&format!("All {POINTS} points settled")).await;
        } else {
            phone.headed(&format!("Point {next} 0.10 mL")).await;
        }
        let given = units(self.done * AT_POINT);
        let left = POINTS - self.done - self.skipped;
        phone.reads("Given this round", &format!("{given} units")).await;
        // What was left out is not going to be given.
        let all = POINTS - self.skipped;
        let still = format!("{} of {} units", units(left * AT_POINT), units(all * AT_POINT));
        phone.reads("Still to give", &still).await;
    }

    /// Injects the next point.
    pub async fn inject(&mut self, phone: &mut Phone) {
        phone.tap("Injected, 0.10 mL").await;
        self.done += 1;
        self.shown(phone).await;
    }

    /// Leaves the next point out.
    pub async fn skip(&mut self, phone: &mut Phone) {
        phone.tap("Skip, why").await;
        phone.headed(&format!("Leave out point {}", self.next())).await;
        phone.at("skip").await;
        phone.tap("Blood is back there").await;
        self.skipped += 1;
        self.shown(phone).await;
    }

    /// Injects up to this point.
    pub async fn inject_until(&mut self, phone: &mut Phone, last: u64) {
        while self.next() <= last {
            self.inject(phone).await;
        }
    }
}

/// The whole first round: one point skipped, one undone and given again.
pub async fn round_with_slips(phone: &mut Phone) -> Points {
    let mut points = Points::default();
    points.shown(phone).await;
    points.inject_until(phone, 3).await;
    phone.at("rounds").await;
    points.skip(phone).await;
    points.inject_until(phone, 6).await;
    phone.tap("Undo 6").await;
    points.done -= 1;
    points.shown(phone).await;
    points.inject_until(phone, POINTS).await;
    phone.at("round-settled").await;
    points
}

/// Ends a round; the hour begins. `milli` are the thousandths of a unit given in all so far.
pub async fn finish(phone: &mut Phone, number: u64, milli: u64, vials: u64) {
    phone.tap("Round done, start the clock").await;
    phone.headed("Look again in").await;
    phone.see(&format!("Round {number} done")).await;
    phone.reads("Units so far", &units(milli)).await;
    phone.reads("Rounds", &number.to_string()).await;
    phone.reads("Vials opened", &vials.to_string()).await;
    phone.at(&format!("hour-{number}")).await;
}

/// Takes a look down: refill on both sides, colour, pain.
pub async fn look(phone: &mut Phone, refill: (&str, &str), colour: &str, pain: &str) {
    phone.tap("Look now").await;
    measures(phone, refill, colour, pain).await;
}

/// The measures of a look, of the hours or of a review.
pub async fn measures(phone: &mut Phone, refill: (&str, &str), colour: &str, pain: &str) {
    phone.headed("What does the skin show?").await;
    type_refill(phone, refill).await;
    phone.tick(colour).await;
    phone.at("look-skin").await;
    phone.tap("Go on").await;
    phone.headed("And the patient?").await;
    phone.tick(pain).await;
    phone.at("look-patient").await;
    phone.tap("Take down this look").await;
}

/// From "another round" to its first movement: the same skin, the same strength.
pub async fn prepare_again(phone: &mut Phone, number: u64, milli: u64) {
    phone.tap(&format!("Prepare round {number}")).await;
    phone.headed("Where is the skin without blood?").await;
    phone.see(&format!("Round {number} · {} units so far", units(milli))).await;
    doses_agree(phone).await;
    phone.go_on("500 units/mL").await;
    phone.see("Movement 1 of").await;
    phone.pause().await;
}

/// The whole case, the first look not better, the second all back.
pub async fn whole(phone: &mut Phone) {
    to_first_draw(phone).await;
    let first = make(phone, VIAL, STRENGTH).await;
    enough(phone, &first).await;
    begin(phone, 1).await;
    let points = round_with_slips(phone).await;
    assert_eq!(points, Points { done: POINTS - 1, skipped: 1 });
    let so_far = points.done * AT_POINT;
    finish(phone, 1, so_far, first.vials).await;

    // Before the hour is over nothing is due; after it the look is.
    phone.let_pass(Duration::from_mins(58)).await;
    phone.headed("Look again in").await;
    phone.let_pass(Duration::from_mins(3)).await;
    phone.headed("The look is due").await;
    phone.at("look-due").await;

    look(phone, ("5", "2"), "Pale", "6").await;
    phone.headed("After round 1").await;
    phone.see("Another round").await;
    phone.see("Refill is not back, or was not timed").await;
    phone.see("Colour is not back").await;
    phone.see("Pain is not gone").await;
    phone.at("decide").await;

    prepare_again(phone, 2, so_far).await;
    let second = make(phone, VIAL, STRENGTH).await;
    enough(phone, &second).await;
    phone.reads("Given so far", &format!("{} units", units(so_far))).await;
    begin(phone, 2).await;
    let mut points = Points::default();
    points.inject_until(phone, POINTS).await;
    let so_far = so_far + points.done * AT_POINT;
    finish(phone, 2, so_far, first.vials + second.vials).await;

    phone.let_pass(Duration::from_mins(61)).await;
    phone.headed("The look is due").await;
    look(phone, ("1.5", "1.5"), "As the other side", "0").await;
    phone.headed("After round 2").await;
    phone.see("Refill, colour and pain are back").await;
    phone.at("decide-end").await;
    phone.tap("All back: end the treatment").await;
    phone.headed("Done").await;
    phone.reads("Given in all", &format!("{} units", units(so_far))).await;
    phone.reads("Rounds", "2").await;
    phone.reads("Vials", &(first.vials + second.vials).to_string()).await;
    phone.see("Tell the patient: call at once").await;
    phone.at("end").await;
    // Open until the patient was seen again; the start screen says when.
    phone.tap("To the start").await;
    phone.see("Open cases").await;
    phone.see("Urgent · Follow-up").await;
    phone.see("Review in ").await;
}
