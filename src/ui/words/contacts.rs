//! Whom the clinic calls.

use crate::case::{Contact, NoNumber, Number, Role};
use crate::protocol::Region;
use crate::protocol::emergency::{BASIS, Country, Proposed, numbers};
use crate::ui::language::{spoken, unbroken, within};

words! {
    /// In a rehearsal.
    pub not_dialled = "Rehearsal: nothing is dialled";
    pub no_number_label = "000000";

    pub title = "Whom to call";
    pub why = "One tap then calls from the sheets. Call each number once to see that it is right.";
    pub name_them = "None set. Tap to set one";
    pub none = "None set";
    pub also = "Not confirmed yet";
    pub add_label = "Add";
    pub change_label = "Change";
    pub name = "Name";
    pub name_hint = "Who answers there. May stay empty. No patient’s name.";
    pub number = "Number";
    pub number_hint = "As you dial it here, with its area code.";
    pub role_label = "Called for";
    pub save = "Save";
    pub remove = "Remove";
    pub removed = "Removed.";
    pub saved = "Saved.";
    pub mend = "Put the number right first.";
}

pub fn role(role: Role) -> &'static str {
    spoken(match role {
        Role::Emergency => "Emergency number",
        Role::Eyes => "Eye department",
        Role::Hospital => "Hospital",
        Role::Colleague => "Colleague",
        Role::Clinic => "This clinic",
    })
}

/// What each is for.
pub fn purpose(role: Role) -> &'static str {
    spoken(match role {
        Role::Emergency => "For sight, stroke, a severe reaction",
        Role::Eyes => "For any change of sight, at once",
        Role::Hospital => "Emergency department, or skin or face surgeon on duty",
        Role::Colleague => "A prescriber, or somebody who helps",
        Role::Clinic => "The number that patients and hospitals call back",
    })
}

/// On the row that dials.
pub fn call(role: Role) -> &'static str {
    spoken(match role {
        Role::Emergency => "Call emergency",
        Role::Eyes => "Call eye department",
        Role::Hospital => "Call hospital",
        Role::Colleague => "Call colleague",
        Role::Clinic => "Call this clinic",
    })
}

/// In place of it, where nobody is named.
pub fn nobody(role: Role) -> &'static str {
    spoken(match role {
        Role::Emergency => "No emergency number yet",
        Role::Eyes => "No eye department yet",
        Role::Hospital => "No hospital yet",
        Role::Colleague => "No colleague yet",
        Role::Clinic => "No number of this clinic yet",
    })
}

fn country(country: Country) -> &'static str {
    spoken(match country {
        Country::Uk => "UK",
        Country::Australia => "Australia",
        Country::NewZealand => "New Zealand",
    })
}

/// A number as it is proposed.
pub fn proposed(proposed: &Proposed) -> String {
    let (number, country) = (proposed.number, country(proposed.country));
    if proposed.mobile {
        tr!("Use {number}: {country}, mobile phones", number, country)
    } else {
        tr!("Use {number}: {country}", number, country)
    }
}

/// The name under which a proposed number is kept: only where it tells two of them apart.
pub fn proposed_name(proposed: &Proposed) -> String {
    match (proposed.country, proposed.mobile) {
        (Country::Uk, _) => String::new(),
        (country, false) => self::country(country).to_owned(),
        (country, true) => tr!("{country}, from mobiles", country = self::country(country)),
    }
}

/// Why none of them stands there by itself.
pub fn proposed_why() -> String {
    tr!("{status}. Confirm what is right where you are.", status = super::protocol::status(BASIS))
}

/// What is usual in a region, to be read and not dialled.
pub fn often(region: Region) -> String {
    let numbers: Vec<String> = numbers(region)
        .iter()
        .map(|one| match proposed_name(one).as_str() {
            "" => one.number.to_owned(),
            name => format!("{} ({name})", one.number),
        })
        .collect();
    tr!("Often {numbers}: not confirmed here. Tap to set it", numbers = numbers.join(", "))
}

/// A contact in a line.
pub fn line(contact: &Contact) -> String {
    let name = if contact.name.is_empty() { role(contact.role) } else { &contact.name };
    format!("{name}, {}", contact.number.as_str())
}

/// What is recorded when a call is begun. Whether anybody answered is not told.
pub fn begun(contact: &Contact) -> String {
    let begun =
        tr!("Call begun: {role}, {contact}", role = role(contact.role), contact = line(contact));
    unbroken(&begun)
}

/// The name of the button beside a contact.
pub fn change(contact: &Contact) -> String {
    tr!("Change {contact}", contact = line(contact))
}

/// The name of the button that adds one.
pub fn add(what: Role) -> String {
    format!("{}: {}", add_label(), within(role(what)))
}

/// How long a name may be.
pub fn too_long() -> String {
    tr!("{longest} characters at most.", longest = Contact::LONGEST)
}

/// Why it is no number.
pub fn no_number(why: NoNumber) -> String {
    match why {
        NoNumber::Empty => tr!("Type a number."),
        NoNumber::Sign(sign) if sign.is_alphabetic() => {
            tr!("“{sign}” is a letter: type digits only.", sign)
        }
        NoNumber::Sign('+') => tr!("A plus stands at the beginning only."),
        NoNumber::Sign(sign) => tr!("No telephone has “{sign}”.", sign),
        NoNumber::TooShort => tr!("Too short: {count} digits at least.", count = Number::FEWEST),
        NoNumber::TooLong => tr!("Too long: {count} digits at most.", count = Number::MOST),
    }
}
