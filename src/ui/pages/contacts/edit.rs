//! Typing a contact in, changing it, and taking it away.

use super::Book;
use crate::case::{Contact, NoNumber, Number, Role};
use crate::ui::parts::{Choice, DangerButton, GoButton, Item, Sheet, TextField};
use crate::ui::words::{self, contacts as said};
use leptos::prelude::*;

/// What is being typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Editing {
    /// A further contact.
    Add(Role),
    /// One that is there, by its place among all.
    Change(usize, Contact),
}

/// The sheet over the page.
#[component]
pub fn Edit(book: Book) -> impl IntoView {
    let editing = book.editing;
    let heading = Signal::derive(move || match editing.get() {
        Some(Editing::Add(role)) => said::add(role),
        Some(Editing::Change(..)) | None => said::change_label().to_owned(),
    });
    view! {
        <Sheet
            open=Signal::derive(move || editing.read().is_some())
            on_close=Callback::new(move |()| editing.set(None))
            heading
            close_label=words::app::close()
        >
            {move || editing.get().map(|asked| view! { <Form book asked /> })}
        </Sheet>
    }
}

/// Name, number, and what it is called for.
#[component]
fn Form(book: Book, asked: Editing) -> impl IntoView {
    let (place, role, name, number) = match asked {
        Editing::Add(role) => (None, role, String::new(), String::new()),
        Editing::Change(place, contact) => {
            let number = contact.number.as_str().to_owned();
            (Some((place, contact.number)), contact.role, contact.name, number)
        }
    };
    let role = RwSignal::new(role);
    let name = RwSignal::new(name);
    let number = RwSignal::new(number);
    let read = Memo::new(move |_| Number::new(&number.read()));
    let long = Memo::new(move |_| name.read().trim().chars().count() > Contact::LONGEST);
    // Nothing typed is asked for by the button, not called wrong.
    let wrong = Signal::derive(move || match &*read.read() {
        Err(NoNumber::Empty) | Ok(_) => None,
        Err(why) => Some(said::no_number(*why)),
    });
    let why_not = Signal::derive(move || match &*read.read() {
        Err(NoNumber::Empty) => Some(said::no_number(NoNumber::Empty)),
        Err(_) => Some(said::mend().to_owned()),
        Ok(_) => long.get().then(said::too_long),
    });
    let roles: Vec<Item<Role>> = Role::ALL
        .into_iter()
        .map(|role| Item::new(role, said::role(role)).hint(said::purpose(role)))
        .collect();
    let kept = StoredValue::new(place);
    // By its number too: another tab may have changed the list meanwhile.
    let same = move |contacts: &[Contact]| {
        let place = kept.with_value(Clone::clone);
        place.and_then(|(place, number): (usize, Number)| {
            contacts.get(place).is_some_and(|one| one.number == number).then_some(place)
        })
    };
    let save = Callback::new(move |()| {
        let Ok(number) = read.get_untracked() else { return };
        let name = name.get_untracked().trim().to_owned();
        let contact = Contact { role: role.get_untracked(), name, number };
        book.editing.set(None);
        book.change(said::saved(), move |contacts| match same(contacts) {
            Some(place) => contacts[place] = contact,
            None => contacts.push(contact),
        });
    });
    let remove = Callback::new(move |()| {
        book.editing.set(None);
        book.change(said::removed(), move |contacts| {
            if let Some(place) = same(contacts) {
                contacts.remove(place);
            }
        });
    });
    let there = kept.with_value(Option::is_some);
    view! {
        <TextField
            label=said::number()
            value=number
            on_input=move |text| number.set(text)
            hint=Some(said::number_hint().to_owned())
            error=wrong
            kind="tel"
        />
        <TextField
            label=said::name()
            value=name
            on_input=move |text| name.set(text)
            hint=Some(said::name_hint().to_owned())
            error=Signal::derive(move || long.get().then(said::too_long))
        />
        // Where it is added is what it is for.
        {there
            .then(|| {
                view! {
                    <Choice
                        legend=said::role_label()
                        items=roles
                        value=Signal::derive(move || Some(role.get()))
                        on_choose=move |chosen| role.set(chosen)
                    />
                }
            })}
        <GoButton on_press=save why_not>{said::save()}</GoButton>
        {there.then(|| view! { <DangerButton on_press=remove>{said::remove()}</DangerButton> })}
    }
}
