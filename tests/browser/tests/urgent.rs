//! The urgent case whole.

use freshet_browser_tests::flows::urgent::{to_first_draw, whole};
use freshet_browser_tests::phone::Phone;

crate::on_both_engines! { urgent_case_whole to_the_first_draw_in_eight_taps }

/// From the start screen to the first draw: at most this many taps.
const MOST_TAPS: usize = 8;

async fn to_the_first_draw_in_eight_taps(mut phone: Phone) -> Phone {
    phone.open().await;
    to_first_draw(&mut phone).await;
    let taps: Vec<String> = phone.taps.iter().map(|tap| tap.name.clone()).collect();
    let few = taps.len() <= MOST_TAPS;
    phone.sure(few, &format!("{} taps to the first draw: {taps:?}", taps.len())).await;
    phone.all_taps_large().await;
    let heading = phone.heading().await;
    phone.sure(heading.starts_with("Draw saline to"), &format!("first draw: {heading}")).await;
    eprintln!("{} taps on {}: {taps:?}", taps.len(), phone.engine.name());
    phone
}

async fn urgent_case_whole(mut phone: Phone) -> Phone {
    phone.open().await;
    whole(&mut phone).await;
    phone.only_own_origin().await;
    phone
}
