//! The kit: what is put in, counted and carried.

use crate::phone::Phone;
use freshet::care::allergy::Urgency;
use freshet::care::dilution::{Ask, Syringe, Vial, plans};
use freshet::care::rounds::End;
use freshet::case::{CaseId, Event, Journal, Reference};
use freshet::measure::{Moment, Strength, Units, Volume};
use freshet::protocol::Protocol;

/// A delivery, as a user types it.
#[derive(Clone, Copy, Debug)]
pub struct Delivery<'a> {
    /// Units on the vial's label, as the choice says them.
    pub units: &'a str,
    /// The species, as the choice says it.
    pub species: &'a str,
    /// Batch.
    pub batch: &'a str,
    /// Expiry.
    pub expiry: &'a str,
    /// How many.
    pub count: u32,
    /// "Clinic" or "Bag".
    pub place: &'a str,
}

/// Vials of the demo clinic.
pub const VIALS: Delivery = Delivery {
    units: "1 500",
    species: "Ovine",
    batch: "DEMO-1",
    expiry: "2031-05",
    count: 4,
    place: "Clinic",
};

/// A closed case, `DEMO late`: a solution of two vials, then one of one vial, and nothing noted.
pub fn nothing_noted() -> Journal {
    // 5 November 2026, 09:00 UTC.
    let at = Moment::from_millis(1_793_869_200_000);
    let mut journal = Journal::new(CaseId::from_random(0x1a7e));
    let reference = Reference::new("DEMO late").expect("short");
    journal.append(at, 0, Event::Opened { reference, protocol: Box::new(Protocol::default()) });
    journal.append(at, 0, Event::Way { urgency: Urgency::Urgent, aim: None });
    for dose in [2_000, 500] {
        let vial = Vial { units: Units::whole(1_500), holds: Volume::ml(3) };
        let syringe = Syringe::new(Volume::ml(1), Volume::ul(10)).expect("a syringe");
        let wanted = Units::whole(dose);
        let ask = Ask::dose(vial, None, Strength::per_ml(500), wanted, syringe);
        let plan = plans(&ask).expect("it can be made").remove(0);
        let movements = u32::try_from(plan.movements().len()).expect("a few");
        journal.append(at, 0, Event::Preparation(Box::new(plan)));
        for movement in 0..movements {
            journal.append(at, 0, Event::Drew(movement));
        }
    }
    journal.append(at, 0, Event::Closed(End::Done));
    journal
}

/// To the kit, by its address.
pub async fn to_kit(phone: &mut Phone) {
    let url = format!("{}?page=kit", phone.server.url());
    phone.go(&url).await;
    phone.settled().await;
    phone.headed("Kit").await;
}

/// On the kit's page, vials come in.
pub async fn receive(phone: &mut Phone, delivery: Delivery<'_>) {
    phone.go_on("Add to the kit").await;
    phone.headed("Add to the kit").await;
    phone.choose("What is it?", "Hyaluronidase").await;
    phone.choose("On the vial’s label", delivery.units).await;
    phone.choose("The enzyme at hand", delivery.species).await;
    phone.type_into("Batch", delivery.batch).await;
    phone.type_into("Expiry", delivery.expiry).await;
    phone.type_into("How many", &delivery.count.to_string()).await;
    phone.choose("Where it lies", delivery.place).await;
    phone.go_on("Put it in").await;
    phone.headed("Kit").await;
    phone.see("In the kit.").await;
}

/// Something else of the kit comes in, into the clinic: syringes, needles, adrenaline.
pub async fn receive_other(phone: &mut Phone, kind: &str, count: u32) {
    phone.go_on("Add to the kit").await;
    phone.choose("What is it?", kind).await;
    if kind == "Diluent" {
        phone.type_into("In one container", "10").await;
    }
    phone.type_into("Expiry", VIALS.expiry).await;
    phone.type_into("How many", &count.to_string()).await;
    phone.go_on("Put it in").await;
    phone.headed("Kit").await;
}
