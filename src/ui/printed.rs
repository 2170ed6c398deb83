//! What is printed on a vial or a pack, as it is typed: batch and expiry.

use crate::kit::{ExpiryMisread, read_expiry};
use crate::measure::Date;
use crate::ui::parts::{Text, TextField};
use crate::ui::words::syringe as said;
use leptos::prelude::*;

/// Batch and expiry, typed.
#[component]
pub fn Printed(
    /// As typed.
    #[prop(into)]
    batch: Text,
    /// As typed.
    #[prop(into)]
    expiry: Text,
    /// Something was typed.
    #[prop(into)]
    on_batch: Callback<String>,
    /// Something was typed.
    #[prop(into)]
    on_expiry: Callback<String>,
    /// Where the batch is to be read.
    batch_hint: &'static str,
    /// What follows where no expiry is typed.
    #[prop(optional)]
    undated: &'static str,
    /// Whether the user went on with what cannot be read.
    went_on: RwSignal<bool>,
) -> impl IntoView {
    let blank = Memo::new(move |_| expiry.read().trim().is_empty());
    let hint = move || {
        let undated = if blank.get() { undated } else { "" };
        Some([said::expiry_hint(), undated].join(" ").trim_end().to_owned())
    };
    view! {
        <TextField
            label=said::batch()
            value=batch
            hint=Some(batch_hint.to_owned())
            on_input=on_batch
        />
        <TextField
            label=said::expiry()
            value=expiry
            hint=Signal::derive(hint)
            error=Signal::derive(move || wrong(&expiry.read(), went_on.get()))
            on_input=on_expiry
        />
    }
}

/// The last day of use, if one is typed.
///
/// # Errors
/// What is wrong with it, in words.
pub fn expiry(text: &str) -> Result<Option<Date>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    read_expiry(text).map(Some).map_err(|misread| said::misread(misread).to_owned())
}

/// What is wrong with an expiry, to be said beside it. What has no form yet may be half typed, and is
/// called wrong only once the user went on.
fn wrong(text: &str, went_on: bool) -> Option<String> {
    let misread = Some(text).filter(|text| !text.trim().is_empty()).map(read_expiry)?.err()?;
    (went_on || misread != ExpiryMisread::Form).then(|| said::misread(misread).to_owned())
}

/// A day as the field takes it.
pub fn as_typed(date: Date) -> String {
    format!("{:04}-{:02}-{:02}", date.year(), date.month(), date.day())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_half_typed_day_is_no_mistake_before_the_user_went_on() {
        assert_eq!(wrong("2027-", false), None);
        assert!(wrong("2027-", true).is_some());
        assert!(wrong("2027-13", false).is_some());
        assert_eq!(wrong(" ", true), None);
    }

    #[test]
    fn a_day_put_into_the_field_reads_back_the_same() {
        let day = Date::new(2027, 5, 9).unwrap();
        assert_eq!(expiry(&as_typed(day)), Ok(Some(day)));
        assert_eq!(expiry(" "), Ok(None));
    }
}
