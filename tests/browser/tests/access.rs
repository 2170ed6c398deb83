//! Each screen by axe, in light and in dark; nothing too small to tap; no sideways scrolling.

use freshet_browser_tests::flows::around::{
    about, home, reaction_without_a_case, sums, turned_away, values,
};
use freshet_browser_tests::flows::{hours, planned, rehearsal, urgent};
use freshet_browser_tests::phone::{AtEach, Phone};

crate::on_both_engines! {
    screens_of_an_urgent_case_are_for_everybody
    screens_of_planned_work_are_for_everybody
    screens_of_the_hours_are_for_everybody
    screens_of_a_rehearsal_are_for_everybody
    screens_beside_the_way_are_for_everybody
}

async fn screens_of_an_urgent_case_are_for_everybody(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.open().await;
    urgent::whole(&mut phone).await;
    phone.nothing_found().await;
    phone
}

async fn screens_of_planned_work_are_for_everybody(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.open().await;
    planned::whole(&mut phone).await;
    phone.nothing_found().await;
    phone
}

async fn screens_of_the_hours_are_for_everybody(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.open().await;
    hours::shown(&mut phone).await;
    phone.nothing_found().await;
    phone
}

async fn screens_of_a_rehearsal_are_for_everybody(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.open().await;
    rehearsal::whole(&mut phone).await;
    phone.nothing_found().await;
    phone
}

async fn screens_beside_the_way_are_for_everybody(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.open().await;
    reaction_without_a_case(&mut phone).await;
    home(&mut phone).await;
    sums(&mut phone).await;
    values(&mut phone).await;
    about(&mut phone).await;
    turned_away(&mut phone).await;
    phone.nothing_found().await;
    phone
}
