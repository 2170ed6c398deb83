//! The name in the browser's title, with what is due before it.

use super::words;
use leptos::prelude::document;
use std::cell::RefCell;

/// What the title says.
#[derive(Default)]
struct Parts {
    due: Option<&'static str>,
    mark: Option<&'static str>,
    page: String,
}

thread_local! {
    static PARTS: RefCell<Parts> = RefCell::default();
}

/// The name of the page that is shown.
pub fn set_title(text: &str) {
    change(|parts| text.clone_into(&mut parts.page));
}

/// What is due, or nothing: seen in a list of tabs and of open apps, whatever page is shown.
pub fn set_due(due: Option<&'static str>) {
    change(|parts| parts.due = due);
}

/// What the page belongs to, if it is none of a real case.
pub fn set_mark(mark: Option<&'static str>) {
    change(|parts| parts.mark = mark);
}

fn change(change: impl FnOnce(&mut Parts)) {
    PARTS.with_borrow_mut(|parts| {
        change(parts);
        let page = Some(parts.page.as_str()).filter(|page| !page.is_empty());
        let all: Vec<&str> =
            [parts.due, parts.mark, page, Some(words::app::name())].into_iter().flatten().collect();
        document().set_title(&all.join(" · "));
    });
}
