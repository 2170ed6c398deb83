//! Making the solution: one movement after the other, with the arithmetic of the test's own.
//!
//! The test reads the order on the screen as the person with the syringe does, carries it out on a
//! bench of its own in whole microlitres and thousandths of a unit, and compares what the screen
//! says is then in the syringe.

use crate::phone::Phone;

/// What the test's own bench holds.
#[derive(Debug, Default)]
struct Bench {
    vial_units: u64,
    syringe: Liquid,
    vial: Liquid,
    opened: u64,
    vial_name: String,
}

/// Volume in microlitres, units in thousandths.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Liquid {
    ul: u64,
    milli: u64,
}

impl Liquid {
    /// A part of it, which is exact with the strengths that the plans use.
    fn part(self, ul: u64) -> Self {
        assert!(ul <= self.ul, "{ul} µL from {} µL", self.ul);
        let milli = self.milli * ul;
        assert_eq!(milli % self.ul.max(1), 0, "not a whole thousandth of a unit");
        Self { ul, milli: milli / self.ul.max(1) }
    }

    fn units(self) -> String {
        units(self.milli)
    }

    fn strength(self) -> String {
        assert_eq!(self.milli * 1000 % self.ul, 0, "not a whole thousandth of a unit per mL");
        units(self.milli * 1000 / self.ul)
    }
}

/// Units as the app shows them: whole from 100 up, one decimal below.
pub fn units(milli: u64) -> String {
    if milli >= 100_000 {
        thousands((milli + 500) / 1000)
    } else {
        let tenths = (milli + 50) / 100;
        if tenths.is_multiple_of(10) {
            (tenths / 10).to_string()
        } else {
            format!("{}.{}", tenths / 10, tenths % 10)
        }
    }
}

fn thousands(whole: u64) -> String {
    if whole >= 1000 { format!("{} {:03}", whole / 1000, whole % 1000) } else { whole.to_string() }
}

/// Millilitres with two decimals, or three where they are needed.
pub fn ml(ul: u64) -> String {
    if ul.is_multiple_of(10) {
        format!("{}.{:02}", ul / 1000, ul % 1000 / 10)
    } else {
        format!("{}.{:03}", ul / 1000, ul % 1000)
    }
}

/// Microlitres in the last word but one of "… to 0.40 mL".
fn mark(heading: &str) -> u64 {
    let words: Vec<&str> = heading.split_whitespace().collect();
    let number = words[words.len().saturating_sub(2)];
    let (whole, part) = number.split_once('.').unwrap_or((number, "0"));
    let part = format!("{part:0<3}");
    let read =
        |text: &str| text.parse::<u64>().unwrap_or_else(|_| panic!("no mark in {heading:?}"));
    read(whole) * 1000 + read(&part)
}

/// What was made.
#[derive(Clone, Debug, Default)]
pub struct Made {
    /// Movements of the plunger.
    pub movements: usize,
    /// Microlitres in each syringe.
    pub syringes: Vec<u64>,
    /// Thousandths of a unit in all syringes.
    pub milli: u64,
    /// Vials opened.
    pub vials: u64,
}

/// Carries out every movement, checks what the screen says of each, labels each syringe, and ends
/// at the rounds. `strength` in units per mL; `vial` in units.
pub async fn make(phone: &mut Phone, vial: u64, strength: u64) -> Made {
    let mut bench = Bench { vial_units: vial, ..Bench::default() };
    let mut made = Made::default();
    loop {
        assert!(made.movements < 60, "the preparation does not end");
        let heading = phone.heading().await;
        if heading == "Write its label" {
            if label(phone, &bench, &mut made, strength).await {
                return made;
            }
            bench.syringe = Liquid::default();
            phone.see_no("Write its label").await;
            continue;
        }
        made.movements += 1;
        if made.movements == 1 {
            phone.at("syringe").await;
        }
        let button = movement(phone, &mut bench, &heading).await;
        made.vials = bench.opened;
        let place = format!("Movement {} of", made.movements);
        phone.see(&place).await;
        phone.tap(&button).await;
        let next = format!("Movement {} of", made.movements + 1);
        moved_on(phone, &place, &next).await;
    }
}

/// Waits until the next movement, or a label, is shown.
async fn moved_on(phone: &mut Phone, place: &str, next: &str) {
    phone.see_no(place).await;
    let start = std::time::Instant::now();
    loop {
        if phone.shows(next).await || phone.shows("Write its label").await {
            return;
        }
        if start.elapsed() > crate::eye::PATIENCE {
            phone.fail("after a movement neither the next nor a label shows").await;
        }
    }
}

/// Does what the heading says on the bench, compares, and returns the words on the button.
async fn movement(phone: &mut Phone, bench: &mut Bench, heading: &str) -> String {
    if heading.starts_with("Push all of it into") {
        if bench.vial_name != heading {
            // Another vial; what is left in the one before stays there.
            heading.clone_into(&mut bench.vial_name);
            bench.opened += 1;
            bench.vial = Liquid { ul: 0, milli: bench.vial_units * 1000 };
        }
        bench.vial.ul += bench.syringe.ul;
        bench.vial.milli += bench.syringe.milli;
        bench.syringe = Liquid::default();
        let (held, strong) = (bench.vial.units(), bench.vial.strength());
        phone.reads("In the vial", &format!("{held} units")).await;
        phone.reads("Strength now", &format!("{strong} units/mL")).await;
        return "Dissolved".into();
    }
    let to = mark(heading);
    assert!(to <= 1000, "{heading}: more than the syringe holds");
    let words =
        if heading.starts_with("Draw saline to") || heading.starts_with("Draw saline on top") {
            assert!(to > bench.syringe.ul, "{heading}: nothing is drawn");
            bench.syringe.ul = to;
            if heading.starts_with("Draw saline to") { "Drawn" } else { "Mixed" }
        } else if heading.starts_with("Draw from") {
            let drawn = bench.vial.part(to - bench.syringe.ul);
            bench.vial.ul -= drawn.ul;
            bench.vial.milli -= drawn.milli;
            bench.syringe.ul += drawn.ul;
            bench.syringe.milli += drawn.milli;
            "Drawn"
        } else if heading.starts_with("Push out") {
            bench.syringe = bench.syringe.part(to);
            "Pushed out"
        } else {
            phone.fail(&format!("{heading:?} is no movement")).await
        };
    if bench.syringe.milli == 0 {
        phone.reads("In the syringe", &format!("{} mL", ml(bench.syringe.ul))).await;
    } else {
        let (held, strong) = (bench.syringe.units(), bench.syringe.strength());
        phone.reads("In the syringe", &format!("{held} units")).await;
        phone.reads("Strength now", &format!("{strong} units/mL")).await;
    }
    format!("{words}, {} mL", ml(to))
}

/// Compares the label with the bench; says whether it was the last.
async fn label(phone: &mut Phone, bench: &Bench, made: &mut Made, strength: u64) -> bool {
    let full = bench.syringe;
    phone.reads("Hyaluronidase", &format!("{} units/mL", units(strength * 1000))).await;
    phone.reads("Volume", &format!("{} mL", ml(full.ul))).await;
    phone.reads("In all", &format!("{} units", full.units())).await;
    assert_eq!(full.strength(), units(strength * 1000), "the bench holds another strength");
    made.syringes.push(full.ul);
    made.milli += full.milli;
    if made.syringes.len() == 1 {
        phone.at("label").await;
    }
    let number = made.syringes.len();
    if phone.offers("All syringes ready").await {
        phone.tap("All syringes ready").await;
        return true;
    }
    phone.see(&format!("Syringe {number} of")).await;
    phone.tap("Labelled, put aside").await;
    false
}
