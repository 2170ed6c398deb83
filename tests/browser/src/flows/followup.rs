//! The patient seen again after the treatment.

use super::after::drawn_and_looked;
use super::records::lay_near;
use super::urgent::measures;
use crate::phone::Phone;
use freshet::care::allergy::Urgency;
use freshet::care::dose::RoundPlan;
use freshet::care::refill::{Colour, Refill};
use freshet::care::rounds::{Act, End, Look, Pain};
use freshet::case::{CaseId, Event, Journal, Reference};
use freshet::measure::{Hash, Moment, Span, Strength, Volume};
use freshet::protocol::Protocol;

/// A treatment of one round, at whose end all is back.
pub async fn treated(phone: &mut Phone) {
    drawn_and_looked(phone, ("1.5", "1.5"), "As the other side", "0").await;
    phone.tap("All back: end the treatment").await;
    phone.headed("Done").await;
}

/// A review: the measures, then the rest of it.
pub async fn seen_again(phone: &mut Phone, refill: (&str, &str), colour: &str, pain: &str) {
    phone.tap("See the patient now").await;
    measures(phone, refill, colour, pain).await;
    phone.headed("How is it now?").await;
    phone.at("came").await;
    phone.choose("Seen", "In person").await;
    phone.go_on("Record the review").await;
    phone.headed("Follow-up").await;
}

/// What the phone's clock shows.
pub fn now(phone: &Phone) -> Moment {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
    let millis = (since.expect("a clock after 1970") + phone.ahead()).as_millis();
    Moment::from_millis(i64::try_from(millis).expect("no age of the world"))
}

/// An occlusion of the invented clinic, treated with one round two hours long, the look with its photo,
/// all back: over so long ago.
pub fn over(phone: &Phone, reference: &str, ago: Span) -> Journal {
    let end = now(phone).before(ago);
    let mut journal = treating(reference, end.before(Span::hours(1)));
    let refill = Refill { affected: Span::millis(1_500), opposite: Some(Span::millis(1_500)) };
    let look = Look {
        refill: Some(refill),
        photo: Some(Hash::of(b"a photo of nobody")),
        ..Look::of(Colour::Normal, Pain::NONE)
    };
    journal.append(end, 0, Event::Round(Act::Look(look)));
    journal.append(end, 0, Event::Round(Act::End(End::Done)));
    journal
}

/// The same, its round over at this moment and nothing after it.
pub fn treating(reference: &str, finished: Moment) -> Journal {
    let opened = finished.before(Span::hours(1));
    let name = reference.bytes().fold(0xde_0000, |name, sign| (name << 8) | u128::from(sign));
    let mut journal = Journal::new(CaseId::from_random(name));
    let reference = Reference::new(reference).expect("short");
    journal.append(opened, 0, Event::Opened { reference, protocol: Box::<Protocol>::default() });
    journal.append(opened, 0, Event::Way { urgency: Urgency::Urgent, aim: None });
    let (strength, bolus) = (Strength::per_ml(500), Volume::ul(100));
    let plan = RoundPlan { strength, bolus, points: 1 };
    journal.append(opened, 0, Event::Round(Act::Begin(plan)));
    let inject = Act::Inject { point: 1, volume: bolus };
    journal.append(opened, 0, Event::Round(inject));
    journal.append(finished, 0, Event::Round(Act::Finish));
    journal
}

/// Lays a case onto a phone that the app was opened on, and opens a page of it.
pub async fn lay_and_open(phone: &mut Phone, case: &Journal, page: &str, heading: &str) {
    lay_near(phone, std::slice::from_ref(case)).await;
    let url = format!("{}?page={page}&case={}", phone.server.url(), case.case());
    phone.go(&url).await;
    phone.settled().await;
    phone.headed(heading).await;
}

/// A review at which sight is changed.
pub async fn sight_changed(phone: &mut Phone) {
    phone.tap("See the patient now").await;
    phone.headed("What does the skin show?").await;
    super::look::type_refill(phone, ("1.5", "1.5")).await;
    phone.tick("As the other side").await;
    phone.tap("Go on").await;
    phone.headed("And the patient?").await;
    phone.tick("0").await;
    phone.tick("Sight changed, or pain in the eye").await;
    phone.tap("Take down this look").await;
    phone.headed("How is it now?").await;
    phone.choose("Seen", "In person").await;
    phone.go_on("Record the review").await;
    phone.headed("Follow-up").await;
}

/// Every screen of it: before the review, the day agreed, the review, well, and a sign that goes before
/// everything.
pub async fn shown(phone: &mut Phone) {
    let case = over(phone, "DEMO 7", Span::hours(3));
    lay_and_open(phone, &case, "followup", "Follow-up").await;
    phone.at("proposed").await;
    phone.tap("Agree on the next review").await;
    phone.headed("When is the next review?").await;
    phone.at("when").await;
    phone.tap("Agreed with the patient").await;
    phone.headed("Follow-up").await;
    phone.let_pass(std::time::Duration::from_hours(24)).await;
    phone.see("Review due for ").await;
    phone.at("due").await;
    seen_again(phone, ("1.5", "1.5"), "As the other side", "0").await;
    phone.see("Well: nothing more is asked for").await;
    phone.at("well").await;
    sight_changed(phone).await;
    phone.see("Hand over").await;
    phone.at("sight").await;
    phone.go_on("Hand over").await;
    phone.headed("Hand over: why?").await;
    phone.at("hand-over").await;
    phone.tap("Handed over: close the case").await;
    phone.see("Closed: Handed over: Sight changed").await;
    phone.at("handed-over").await;
}
