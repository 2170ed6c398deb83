//! Each screen by axe, in light and in dark; nothing too small to tap; no sideways scrolling.

use crate::looked_at;
use freshet_browser_tests::flows::around::beside_the_way;
use freshet_browser_tests::flows::{hours, planned, rehearsal, urgent};
use freshet_browser_tests::phone::{AtEach, Phone};

crate::on_both_engines! {
    screens_of_an_urgent_case_are_for_everybody
    screens_of_planned_work_are_for_everybody
    screens_of_the_hours_are_for_everybody
    screens_of_a_rehearsal_are_for_everybody
    screens_beside_the_way_are_for_everybody
}

async fn screens_of_an_urgent_case_are_for_everybody(phone: Phone) -> Phone {
    looked_at(phone, AtEach::Check, urgent::whole).await
}

async fn screens_of_planned_work_are_for_everybody(phone: Phone) -> Phone {
    looked_at(phone, AtEach::Check, planned::whole).await
}

async fn screens_of_the_hours_are_for_everybody(phone: Phone) -> Phone {
    looked_at(phone, AtEach::Check, hours::shown).await
}

async fn screens_of_a_rehearsal_are_for_everybody(phone: Phone) -> Phone {
    looked_at(phone, AtEach::Check, rehearsal::whole).await
}

async fn screens_beside_the_way_are_for_everybody(phone: Phone) -> Phone {
    looked_at(phone, AtEach::Check, beside_the_way).await
}
