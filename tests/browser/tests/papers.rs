//! What leaves the phone: each paper shared or downloaded, and a case file taken in by another phone.

use freshet::case::{Event, Journal};
use freshet::record::label::labels;
use freshet::record::{file, samples};
use freshet_browser_tests::flows::papers::{given, lay_and_open, watch};
use freshet_browser_tests::flows::records::choose_file;
use freshet_browser_tests::phone::{AtEach, Phone};

crate::on_both_engines! {
    each_paper_is_shared_or_kept
    each_of_several_syringes_has_its_label
    a_case_goes_to_another_phone
}

async fn each_paper_is_shared_or_kept(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.open().await;
    let case = samples::occlusion().journal;
    lay_and_open(&mut phone, &case).await;
    phone.at("papers").await;

    // Nothing to share with: downloads.
    watch(&mut phone, "none").await;
    phone.tap("FHIR R4 bundle").await;
    phone.see("Handed to the browser’s downloads.").await;
    let bundle = given(&mut phone).await;
    phone
        .sure(
            bundle["how"] == "download" && bundle["kind"] == "application/fhir+json",
            &format!("{bundle}"),
        )
        .await;
    let text = bundle["text"].as_str().unwrap_or_default();
    phone.sure(text.contains("\"resourceType\":\"Bundle\""), "no bundle").await;

    // Shared, closed without a choice, refused.
    watch(&mut phone, "shares").await;
    phone.tap("Case file").await;
    phone.see("Handed on.").await;
    let shared = given(&mut phone).await;
    phone.sure(shared["how"] == "share", &format!("{shared}")).await;
    let read = file::read(shared["text"].as_str().unwrap_or_default());
    phone.sure(read == Ok(vec![case.clone()]), "another case file").await;
    watch(&mut phone, "closes").await;
    phone.tap("FHIR R4 bundle").await;
    phone.see_no("Handed on.").await;
    watch(&mut phone, "refuses").await;
    phone.tap("FHIR R4 bundle").await;
    phone.see("Handed to the browser’s downloads.").await;

    // The label: who made it is typed, and not kept.
    watch(&mut phone, "shares").await;
    phone.tap("Syringe label").await;
    phone.type_into("Made by: initials or role", "AB").await;
    phone
        .until(
            "the label is drawn with it",
            "return document.querySelector('.label-picture')?.alt.includes('By AB') ?? false;",
        )
        .await;
    phone.at("papers-label").await;
    phone.tap("Share the picture").await;
    phone.see("Handed on.").await;
    let picture = given(&mut phone).await;
    phone
        .sure(
            picture["kind"] == "image/png" && picture["size"].as_u64() > Some(2_000),
            &format!("{picture}"),
        )
        .await;
    phone.tap("Syringe label").await;
    phone.tap("Share the text").await;
    phone
        .until(
            "the text is shared",
            "return window.given?.text?.includes('500 units/mL') ?? false;",
        )
        .await;

    // Those to be read are a tap away.
    phone.tap("Clinical note").await;
    phone.headed("Clinical note").await;
    phone.nothing_found().await;
    phone
}

async fn each_of_several_syringes_has_its_label(mut phone: Phone) -> Phone {
    phone.open().await;
    let told = samples::drawn();
    lay_and_open(&mut phone, &told.journal).await;
    watch(&mut phone, "shares").await;
    let labels = labels(&told.case(), &told.journal);
    phone.sure(labels.len() == 2, &format!("{} labels", labels.len())).await;
    phone.tap("Syringe label").await;
    for (number, label) in (1..).zip(&labels) {
        let which = format!("syringe {number} of 2");
        let drawn = format!(
            "return document.querySelector('.label-picture')?.alt.includes('{which}') ?? false;"
        );
        phone.until(&format!("the label of {which} is drawn"), &drawn).await;
        // By the clinic's clock, which here is an hour ahead of the phone's.
        let made = label.made.expect("it is filled");
        let made = format!("Made 5 Nov 2026, {:02}:{:02}", made.hour, made.minute);
        let alt = phone.run("return document.querySelector('.label-picture').alt;", vec![]).await;
        let alt = alt.as_str().unwrap_or_default().to_owned();
        let holds = format!("{} units in", label.contents.units);
        phone.sure(alt.contains(&made) && alt.contains(&holds), &alt).await;
        if number == 1 {
            phone.at_each = AtEach::Check;
            phone.at("papers-labels").await;
            phone.at_each = AtEach::Nothing;
            phone.tap("The next syringe").await;
        }
    }
    phone.tap("Share the text").await;
    phone.see("Handed on.").await;
    let given = given(&mut phone).await;
    let text = given["text"].as_str().unwrap_or_default();
    phone.sure(text.ends_with("Case A-20, syringe 2 of 2"), text).await;
    phone.nothing_found().await;
    phone
}

async fn a_case_goes_to_another_phone(mut phone: Phone) -> Phone {
    phone.open().await;
    let case = samples::occlusion().journal;
    lay_and_open(&mut phone, &case).await;
    watch(&mut phone, "shares").await;
    phone.tap("Case file").await;
    phone.see("Handed on.").await;
    let text = given(&mut phone).await["text"].as_str().unwrap_or_default().to_owned();

    let mut other = Phone::new(phone.engine, "another-phone").await;
    other.tap("Records").await;
    other.headed("Records").await;
    // Cut on the way, at the end of an entry: refused as such.
    let cut: Vec<&str> = text.lines().take(8).collect();
    choose_file(&mut other, "cut.json", &(cut.join("\n").trim_end_matches(',').to_owned() + "]}"))
        .await;
    other.see("Entry 8 in it is cut or missing").await;
    other.tap("Leave it").await;
    choose_file(&mut other, "case.json", &text).await;
    other.headed("What is in this file").await;
    other.go_on("Take it in").await;
    other.see("Taken in.").await;
    other.tap("A-17").await;
    let whole = format!("Chain whole: {} entries", case.entries().len());
    other.see(&whole).await;
    let there = timeline(&mut other).await;
    other.put_away().await;

    let url = phone.server.url();
    phone.go(&format!("{url}?page=timeline&case={}", case.case())).await;
    phone.see(&whole).await;
    let here = timeline(&mut phone).await;
    phone
        .sure(
            here == there && notes(&case).iter().all(|note| here.contains(note)),
            "another timeline",
        )
        .await;
    phone
}

fn notes(case: &Journal) -> Vec<&str> {
    let events = case.entries().iter().map(freshet::case::Entry::event);
    let texts = events.filter_map(|event| match event {
        Event::Note(text) => Some(text.as_str()),
        _ => None,
    });
    texts.collect()
}

/// What the record shows, line by line.
async fn timeline(phone: &mut Phone) -> String {
    let lines = "return [...document.querySelectorAll('.timeline')].map((list) => list.innerText).join('\\n');";
    phone.run(lines, vec![]).await.as_str().unwrap_or_default().to_owned()
}
