//! What stands beside the way: the anaphylaxis sheet, quick sums, clinic values, about.

use crate::phone::Phone;
use std::time::Duration;

/// Back, by the button at the top.
pub async fn back(phone: &mut Phone) {
    phone.tap("Back").await;
}

/// To the start screen, whatever is shown, as by opening the app's address.
pub async fn home(phone: &mut Phone) {
    let url = phone.server.url();
    phone.go(&url).await;
    phone.settled().await;
    phone.see("New case").await;
}

/// Opens the only open case from the start screen.
pub async fn open_case(phone: &mut Phone) {
    phone.see("Open cases").await;
    phone.tap_first("Open cases").await;
}

/// The anaphylaxis sheet without a case, from the first dose to the end of it.
pub async fn reaction_without_a_case(phone: &mut Phone) {
    phone.tap("Anaphylaxis").await;
    phone.headed("Adrenaline now").await;
    // 500 micrograms of 1 mg/mL for an adult, by the UK table.
    phone.see("0.50 mL").await;
    phone.see("500 micrograms").await;
    phone.at("anaphylaxis").await;
    phone.tap("Adrenaline given, 0.50 mL").await;
    phone.headed("Again in").await;
    logged(phone, "Dose 1 given at ").await;
    phone.see("Adrenaline 1 mg/mL, 0.50 mL into the thigh muscle").await;
    phone.tap("Called").await;
    phone.see("Emergency services called").await;
    phone.at("anaphylaxis-waiting").await;

    // Five minutes, by both tables.
    let left = clock(phone).await;
    phone.sure((240..=300).contains(&left), &format!("{left} s to the next dose")).await;
    phone.let_pass(Duration::from_secs(230)).await;
    phone.headed("Again in").await;
    phone.let_pass(Duration::from_secs(75)).await;
    phone.headed("Adrenaline again now, unless better").await;
    phone.at("anaphylaxis-again").await;
    phone.tap("Dose 2 given, 0.50 mL").await;
    phone.headed("Again in").await;
    phone.tap("Not better").await;
    phone.see("2 doses and no better: refractory").await;
    phone.at("anaphylaxis-refractory").await;
    phone.tap("Better").await;
    phone.headed("Better. Stay and watch").await;
    phone.tap("Over, or taken over").await;
    phone.headed("How long to watch").await;
    phone.at("anaphylaxis-over").await;
    phone.tap("Taken over: close the case").await;
    phone.see("To the start").await;
}

/// What was taken down stands with the hour that the phone's clock says.
pub async fn logged(phone: &mut Phone, words: &str) {
    const HOUR: &str = "const d = new Date(Date.now()); \
        return [0, 1].map((back) => { const t = new Date(d.getTime() - back * 60000); \
        return `${String(t.getHours()).padStart(2, '0')}:${String(t.getMinutes()).padStart(2, '0')}`; });";
    phone.see(words).await;
    let hours = phone.run(HOUR, vec![]).await;
    let text = phone.text().await;
    // The minute may have changed since.
    let so = hours.as_array().is_some_and(|hours| {
        hours
            .iter()
            .filter_map(|hour| hour.as_str())
            .any(|hour| text.contains(&phone.said(&format!("{words}{hour}"))))
    });
    phone.sure(so, &format!("{words:?} does not stand with {hours}")).await;
}

/// Seconds on the clock that is shown.
pub async fn clock(phone: &mut Phone) -> u64 {
    const CLOCK: &str = "return norm(scope().querySelector('[role=timer]').innerText);";
    let shown = phone.run(CLOCK, vec![]).await;
    let shown = shown.as_str().unwrap_or_default().replace(' ', "");
    let parts: Vec<u64> = shown.split(':').filter_map(|part| part.parse().ok()).collect();
    if parts.is_empty() {
        phone.fail(&format!("no clock in {shown:?}")).await;
    }
    parts.iter().fold(0, |sum, part| sum * 60 + part)
}

/// The quick sums, each against arithmetic that stands beside it.
pub async fn sums(phone: &mut Phone) {
    phone.tap("Quick sums").await;
    phone.headed("Quick sums").await;
    // 1500 units in 3 mL.
    phone.type_into("Units in one vial", "1500").await;
    phone.type_into("Diluent, all together", "3").await;
    phone.reads("Strength", "500 units/mL").await;
    phone.reads("In all", "1 500 units").await;
    phone.reads("In 0.10 mL", "50 units").await;
    phone.at("sums-strength").await;
    // A comma is a decimal sign too: 1500 in 7.5 mL would be 200, but no vial here holds it.
    phone.type_into("Diluent, all together", "2,5").await;
    phone.reads("Strength", "600 units/mL").await;
    phone.type_into("Diluent, all together", "0.1.2").await;
    phone.see("Two decimal signs").await;

    // 600 units per mL from 1500 in 1 mL: 0.4 made up to 1.
    phone.tick("Strength wanted").await;
    phone.type_into("Strength wanted", "600").await;
    phone.type_into("Dose wanted", "600").await;
    phone.see("Ready to inject").await;
    phone.at("sums-making").await;

    // 0.5 mL of filler at 15 to 30 units for each 0.1 mL.
    phone.tick("Planned dose").await;
    phone.type_into("Filler to take away", "0.5").await;
    phone.type_into("Strength", "150").await;
    phone.reads("Dose", "75 to 150 units").await;
    // 75 / 150 = 0.5 mL to 150 / 150 = 1 mL, in deposits of 0.1 mL.
    phone.reads("Volume", "0.50 to 1.00 mL").await;
    phone.reads("Deposits", "5 to 10").await;
    phone.at("sums-planned").await;

    // 20 cm², one point on each, 0.1 mL of 500.
    phone.tick("Dose by area").await;
    phone.tick("In cm²").await;
    phone.type_into("Skin without blood", "20").await;
    phone.type_into("Strength", "500").await;
    phone.reads("By grid, a round", "1 000 units").await;
    phone.reads("Points", "20").await;
    phone.reads("Volume", "2.00 mL").await;
    phone.reads("By the published cm²", "800 units").await;
    phone.reads("Vials, a round", "1").await;
    phone.at("sums-area").await;
    back(phone).await;
    phone.see("New case").await;
}

/// The clinic's values, one set, one refused; and what the app is.
pub async fn values(phone: &mut Phone) {
    phone.tap("Clinic values").await;
    phone.headed("Clinic values").await;
    phone.at("values").await;
    phone.tap("Strength, occlusion").await;
    phone.headed("Strength, occlusion").await;
    phone.at("value").await;
    // Bounds of 150 to 1500, in src/protocol.
    phone.type_into(VALUE, "100").await;
    phone.see("Between 150 units/mL and 1 500 units/mL").await;
    phone.tap("Save").await;
    phone.headed("Strength, occlusion").await;
    phone.type_into(VALUE, "300").await;
    phone.tap("Save").await;
    phone.headed("Clinic values").await;
    phone.see("Set here; supplied as 500 units/mL").await;
    phone.see("1 value is set by this clinic.").await;
    back(phone).await;
    phone.see("New case").await;
}

/// The field of a value's sheet.
const VALUE: &str = "For new cases";

/// What the app is and does with data.
pub async fn about(phone: &mut Phone) {
    phone.tap("About and cautions").await;
    phone.headed("About and cautions").await;
    phone.see("It is not a certified medical device").await;
    phone.at("about").await;
    back(phone).await;
    phone.see("New case").await;
}

/// The ways that end before treatment: to the emergency services, another filler, an allergist.
pub async fn turned_away(phone: &mut Phone) {
    phone.tap("New case").await;
    phone.tick("Sight changed, or pain in the eye").await;
    phone.go_on("Hand over").await;
    phone.see("Hand over now").await;
    phone.see("Call emergency and eye services now").await;
    phone.at("hand-over-now").await;
    phone.go_on("Handed over: close the case").await;
    phone.see("Handed over: Sight changed").await;

    home(phone).await;
    phone.tap("New case").await;
    phone.go_on("None of these").await;
    phone.go_on("planned work").await;
    phone.tick("Take all of it away").await;
    phone.choose("The filler is", "Another").await;
    phone.go_on("See why not").await;
    phone.see("Not for hyaluronidase").await;
    phone.at("not-for-it").await;
    phone.go_on("Close the case").await;
    phone.see("Stopped before it was done").await;

    home(phone).await;
    super::planned::to_questions(phone).await;
    phone.choose("Reacted to hyaluronidase before", "No").await;
    phone.choose("Allergic to bee stings", "No").await;
    phone.choose("Allergic to wasp stings", "Yes").await;
    phone.choose("Desensitised against the venom", "No").await;
    phone.choose("Pregnant or nursing", "Neither").await;
    phone.choose("The enzyme at hand", "Bovine").await;
    phone.at("allergy-wasp").await;
    phone.go_on("Go on").await;
    phone.see("To an allergist first").await;
    phone.at("allergist").await;
    phone.go_on("Close the case").await;
    phone.see("Stopped before it was done").await;
    home(phone).await;
}

/// What lies beside the way through a case, one after the other.
pub async fn beside_the_way(phone: &mut Phone) {
    reaction_without_a_case(phone).await;
    home(phone).await;
    sums(phone).await;
    values(phone).await;
    about(phone).await;
    turned_away(phone).await;
}
