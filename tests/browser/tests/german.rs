//! The app in German: chosen, kept without a network, and played by the same flows as in English.

use freshet_browser_tests::flows::around::beside_the_way;
use freshet_browser_tests::flows::{hours, planned, urgent};
use freshet_browser_tests::phone::{AtEach, Phone};
use freshet_browser_tests::tongue::Tongue;

crate::on_both_engines! {
    german_is_chosen_kept_and_left
    an_urgent_case_in_german_fits_every_shape
    planned_work_in_german_fits_every_shape
    the_hours_in_german_fit_every_shape
    what_is_beside_the_way_in_german_fits_every_shape
}

async fn german_is_chosen_kept_and_left(mut phone: Phone) -> Phone {
    phone.open().await;
    phone
        .until(
            "the app is on the phone",
            "return document.documentElement.dataset.offline === 'ready';",
        )
        .await;
    choose(&mut phone, "Deutsch").await;
    phone.tongue = Some(Tongue::german());
    phone.see("New case").await;
    phone.see("Translation not reviewed by a clinician").await;
    let tag = phone.run("return document.documentElement.lang;", vec![]).await;
    phone.sure(tag == "de", &format!("the page says that it speaks {tag}")).await;

    // The catalogue is on the phone since it was first read.
    phone.server.stop();
    phone.reload().await;
    phone.see("New case").await;
    urgent::to_first_draw(&mut phone).await;
    phone.server.restart(None);

    let home = phone.server.url();
    phone.go(&home).await;
    choose(&mut phone, "English").await;
    phone.tongue = None;
    phone.see("New case").await;
    phone.see_no("Translation not reviewed by a clinician").await;
    phone
}

async fn choose(phone: &mut Phone, language: &str) {
    phone.tap("Language · Sprache").await;
    phone.headed("Language · Sprache").await;
    // A language is called by its own name in each.
    let tongue = phone.tongue.take();
    phone.tick(language).await;
    phone.tongue = tongue;
    phone.at("language").await;
    phone.tap("Start again in this language").await;
}

/// Plays a way in German, looking at each screen in every shape.
async fn fits(mut phone: Phone, way: impl AsyncFnOnce(&mut Phone)) -> Phone {
    phone.open().await;
    choose(&mut phone, "Deutsch").await;
    phone.tongue = Some(Tongue::german());
    phone.see("New case").await;
    phone.at_each = AtEach::Fit;
    way(&mut phone).await;
    phone.nothing_found().await;
    phone
}

async fn an_urgent_case_in_german_fits_every_shape(phone: Phone) -> Phone {
    fits(phone, urgent::whole).await
}

async fn planned_work_in_german_fits_every_shape(phone: Phone) -> Phone {
    fits(phone, planned::whole).await
}

async fn the_hours_in_german_fit_every_shape(phone: Phone) -> Phone {
    fits(phone, hours::shown).await
}

async fn what_is_beside_the_way_in_german_fits_every_shape(phone: Phone) -> Phone {
    fits(phone, beside_the_way).await
}
