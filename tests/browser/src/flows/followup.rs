//! The patient seen again after the treatment.

use super::after::drawn_and_looked;
use crate::phone::Phone;

/// A treatment of one round, at whose end all is back.
pub async fn treated(phone: &mut Phone) {
    drawn_and_looked(phone, ("1.5", "1.5"), "As the other side", "0").await;
    phone.tap("All back: end the treatment").await;
    phone.headed("Done").await;
}

/// A review: the measures, then the rest of it.
pub async fn seen_again(phone: &mut Phone, refill: (&str, &str), colour: &str, pain: &str) {
    phone.tap("See the patient now").await;
    super::urgent::measures(phone, refill, colour, pain).await;
    phone.headed("How is it now?").await;
    phone.at("came").await;
    phone.go_on("Record the review").await;
    phone.headed("Follow-up").await;
}
