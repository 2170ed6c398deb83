//! Calling whom the clinic named for what is needed now.

use super::app::use_go;
use super::desk::use_desk;
use super::page::Page;
use super::parts::{CallRow, Row, Rows};
use super::rehearsal::rehearsed;
use super::words::contacts as said;
use crate::case::{Contact, Number, Role};
use leptos::prelude::*;

/// One large row for each contact of these roles; where the clinic named nobody, one that leads to
/// where it does. Nothing is dialled that the clinic has not confirmed, and nothing in a rehearsal.
#[component]
pub fn Calls(
    /// For what, the most urgent first.
    #[prop(into)]
    roles: Signal<Vec<Role>>,
    /// A call was begun.
    #[prop(into)]
    on_call: Callback<Contact>,
) -> impl IntoView {
    let desk = use_desk();
    let go = use_go();
    let rehearsed = rehearsed();
    let wanted = Memo::new(move |_| -> Vec<(Role, Vec<Contact>)> {
        let contacts = desk.contacts();
        let of = |role| contacts.iter().filter(|one| one.role == role).cloned().collect();
        roles.get().into_iter().map(|role| (role, of(role))).collect()
    });
    let acted = move |role: Role| {
        view! {
            <Rows>
                <Row
                    label=said::call(role)
                    detail=Some(said::not_dialled().to_owned())
                    on_press=move |()| {
                        // No number is dialled, so that any will do.
                        if let Ok(number) = Number::new(said::no_number_label()) {
                            let name = said::not_dialled().to_owned();
                            on_call.run(Contact { role, name, number });
                        }
                    }
                />
            </Rows>
        }
    };
    let missing = move |role: Role| {
        let proposed = (role == Role::Emergency).then(|| said::often(desk.protocol().region));
        view! {
            <Rows>
                <Row
                    label=said::nobody(role)
                    detail=Some(proposed.unwrap_or_else(|| said::name_them().to_owned()))
                    on_press=move |()| go.to(Page::Contacts)
                />
            </Rows>
        }
    };
    let row = move |contact: Contact| {
        let (number, address) = (contact.number.as_str().to_owned(), contact.number.uri());
        view! {
            <CallRow
                label=said::call(contact.role)
                detail=Some(contact.name.clone()).filter(|name| !name.is_empty())
                number
                address
                on_press=Callback::new(move |()| on_call.run(contact.clone()))
            />
        }
    };
    move || {
        let wanted = wanted.get();
        (!wanted.is_empty()).then(|| {
            let rows = wanted.into_iter().map(|(role, contacts)| {
                if rehearsed {
                    acted(role).into_any()
                } else if contacts.is_empty() {
                    missing(role).into_any()
                } else {
                    contacts.into_iter().map(row).collect_view().into_any()
                }
            });
            view! { <div class="calls">{rows.collect_view()}</div> }
        })
    }
}
