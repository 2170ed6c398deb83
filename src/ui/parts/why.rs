//! Where a number comes from.

use super::Text;
use leptos::prelude::*;

/// One value behind a number, and where it was found.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Finding {
    /// The value, with its unit.
    pub figure: String,
    /// What it applies to: whom, where, when.
    pub setting: String,
    /// Where it was found.
    pub citation: String,
    /// How sure that is: published, common practice, from memory.
    pub status: String,
}

/// "Why this number": closed until asked for, then the values behind it.
#[component]
pub fn Why(
    /// The words to press.
    #[prop(into)]
    summary: Text,
    /// The values behind it.
    #[prop(optional, into)]
    findings: Signal<Vec<Finding>>,
    /// An explanation before them.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    view! {
        <details class="why">
            <summary>{move || summary.get()}</summary>
            <div class="why-words">
                {children.map(|children| children())}
                {move || {
                    let findings = findings.get();
                    (!findings.is_empty())
                        .then(|| view! { <ul class="findings">{findings.into_iter().map(finding).collect_view()}</ul> })
                }}
            </div>
        </details>
    }
}

fn finding(finding: Finding) -> impl IntoView {
    let Finding { figure, setting, citation, status } = finding;
    view! {
        <li>
            <p class="finding-figure">{figure}</p>
            <p>{setting}</p>
            <p class="finding-source">
                {citation} <span class="finding-status">{status}</span>
            </p>
        </li>
    }
}
