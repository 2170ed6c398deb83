//! Whom the clinic calls.

mod edit;

use crate::case::{Contact, Number, Role};
use crate::protocol::Region;
use crate::protocol::emergency::{Proposed, numbers};
use crate::ui::app::set_title;
use crate::ui::desk::{Desk, use_desk};
use crate::ui::pages::Apart;
use crate::ui::parts::{CallRow, Note, QuietButton, Title, Toast, Tone};
use crate::ui::tap::Taps;
use crate::ui::words::contacts as said;
use edit::{Edit, Editing};
use leptos::prelude::*;

/// What the parts of the page share. Copied freely.
#[derive(Clone, Copy)]
struct Book {
    desk: Desk,
    /// What is being typed, if anything.
    editing: RwSignal<Option<Editing>>,
    /// What was just done.
    told: RwSignal<Option<String>>,
    taps: Taps,
}

impl Book {
    /// Keeps the contacts as `change` leaves them.
    fn change(self, told: &'static str, change: impl FnOnce(&mut Vec<Contact>)) {
        let mut contacts = untrack(|| self.desk.contacts());
        change(&mut contacts);
        let signal = self.told;
        self.desk.set_contacts(contacts, move || {
            signal.try_set(Some(told.to_owned()));
        });
    }

    /// Takes a proposed emergency number for the clinic's own.
    fn confirm(self, proposed: &Proposed) {
        let Ok(number) = Number::new(proposed.number) else { return };
        let name = said::proposed_name(proposed);
        self.taps.once(|| {
            self.change(said::saved(), |contacts| {
                contacts.push(Contact { role: Role::Emergency, name, number });
            });
        });
    }
}

/// Whom the clinic calls.
#[component]
pub fn ContactsPage() -> impl IntoView {
    set_title(said::title());
    let book = Book {
        desk: use_desk(),
        editing: RwSignal::new(None),
        told: super::timeline::passing(),
        taps: Taps::new(),
    };
    view! {
        <Apart>
            <Title arrive=true>{said::title()}</Title>
            <Note>{said::why()}</Note>
            {Role::ALL.map(|role| view! { <OfRole book role /> })}
            <Edit book />
            <Toast text=book.told />
        </Apart>
    }
}

/// Everybody who is called for one thing.
#[component]
fn OfRole(book: Book, role: Role) -> impl IntoView {
    let contacts = Memo::new(move |_| -> Vec<(usize, Contact)> {
        let all = book.desk.contacts().into_iter().enumerate();
        all.filter(|(_, contact)| contact.role == role).collect()
    });
    let none = Memo::new(move |_| contacts.read().is_empty() && role != Role::Emergency);
    let row = move |(place, contact): (usize, Contact)| {
        view! {
            <CallRow
                label=said::call(role)
                detail=Some(contact.name.clone()).filter(|name| !name.is_empty())
                number=contact.number.as_str().to_owned()
                address=contact.number.uri()
            />
            <QuietButton
                label=Some(said::change(&contact))
                on_press=move |()| book.editing.set(Some(Editing::Change(place, contact.clone())))
            >
                {said::change_label()}
            </QuietButton>
        }
    };
    view! {
        <section class="contacts">
            <div>
                <h2>{said::role(role)}</h2>
                <p class="hint">{said::purpose(role)}</p>
            </div>
            {move || contacts.get().into_iter().map(row).collect_view()}
            {move || none.get().then(|| view! { <p class="hint">{said::none()}</p> })}
            {(role == Role::Emergency).then(|| view! { <Proposals book /> })}
            <QuietButton
                label=Some(said::add(role))
                on_press=move |()| book.editing.set(Some(Editing::Add(role)))
            >
                {said::add_label()}
            </QuietButton>
        </section>
    }
}

/// What is proposed in a region and not yet among the emergency numbers. A country may have two.
fn not_confirmed(region: Region, contacts: &[Contact]) -> Vec<&'static Proposed> {
    let there = |number: &Number| {
        let same = |contact: &&Contact| contact.number.uri() == number.uri();
        contacts.iter().filter(|contact| contact.role == Role::Emergency).any(|one| same(&one))
    };
    let wanting = |one: &&Proposed| Number::new(one.number).is_ok_and(|number| !there(&number));
    numbers(region).iter().filter(wanting).collect()
}

/// Emergency numbers as they are usual in the region in force, each confirmed by a tap. Those that
/// were are called by their own row.
#[component]
fn Proposals(book: Book) -> impl IntoView {
    let proposals =
        Memo::new(move |_| not_confirmed(book.desk.protocol().region, &book.desk.contacts()));
    let none = Memo::new(move |_| {
        !book.desk.contacts().iter().any(|contact| contact.role == Role::Emergency)
    });
    let some = Memo::new(move |_| !proposals.read().is_empty());
    view! {
        {move || {
            let heading = if none.get() { said::none() } else { said::also() };
            some.get()
                .then(|| {
                    view! {
                        <Note tone=Tone::Caution heading=Some(heading.to_owned())>
                            {said::proposed_why()}
                        </Note>
                    }
                })
        }}
        {move || {
            proposals
                .get()
                .into_iter()
                .map(|proposed| {
                    view! {
                        <QuietButton on_press=move |()| {
                            book.confirm(proposed);
                        }>{said::proposed(proposed)}</QuietButton>
                    }
                })
                .collect_view()
        }}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn held(number: &str, role: Role) -> Contact {
        let number = Number::new(number).expect("a number");
        Contact { role, name: String::new(), number }
    }

    #[test]
    fn one_confirmed_leaves_the_others_proposed() {
        for region in [Region::Uk, Region::Australia] {
            let mut contacts = Vec::new();
            for (done, proposed) in numbers(region).iter().enumerate() {
                let left = not_confirmed(region, &contacts);
                assert_eq!(left, numbers(region)[done..].iter().collect::<Vec<_>>());
                // For something else it is no emergency number.
                contacts.push(held(proposed.number, Role::Hospital));
                assert_eq!(not_confirmed(region, &contacts), left);
                contacts.push(held(proposed.number, Role::Emergency));
            }
            assert!(not_confirmed(region, &contacts).is_empty());
        }
        let own = [held("9 99", Role::Emergency)];
        assert!(not_confirmed(Region::Uk, &own).iter().all(|one| one.number != "999"));
    }
}
