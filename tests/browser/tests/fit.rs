//! The screens on a small phone, lying down, and with text of twice the size: nothing cut off, nothing
//! covered, the next action in reach.

use crate::looked_at;
use freshet_browser_tests::flows::around::beside_the_way;
use freshet_browser_tests::flows::{hours, planned, urgent};
use freshet_browser_tests::phone::{AtEach, Phone};

crate::on_both_engines! {
    an_urgent_case_fits_every_shape
    planned_work_fits_every_shape
    the_hours_fit_every_shape
    what_is_beside_the_way_fits_every_shape
}

async fn an_urgent_case_fits_every_shape(phone: Phone) -> Phone {
    looked_at(phone, AtEach::Fit, urgent::whole).await
}

async fn planned_work_fits_every_shape(phone: Phone) -> Phone {
    looked_at(phone, AtEach::Fit, planned::whole).await
}

async fn the_hours_fit_every_shape(phone: Phone) -> Phone {
    looked_at(phone, AtEach::Fit, hours::shown).await
}

async fn what_is_beside_the_way_fits_every_shape(phone: Phone) -> Phone {
    looked_at(phone, AtEach::Fit, beside_the_way).await
}
