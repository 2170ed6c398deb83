//! The screens on a small phone, lying down, and with text of twice the size: nothing cut off, nothing
//! covered, the next action in reach.

use freshet_browser_tests::flows::around::{
    about, home, reaction_without_a_case, sums, turned_away, values,
};
use freshet_browser_tests::flows::{hours, planned, urgent};
use freshet_browser_tests::phone::{AtEach, Phone};

crate::on_both_engines! {
    an_urgent_case_fits_every_shape
    planned_work_fits_every_shape
    the_hours_fit_every_shape
    what_is_beside_the_way_fits_every_shape
}

async fn an_urgent_case_fits_every_shape(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Fit;
    phone.open().await;
    urgent::whole(&mut phone).await;
    phone.nothing_found().await;
    phone
}

async fn planned_work_fits_every_shape(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Fit;
    phone.open().await;
    planned::whole(&mut phone).await;
    phone.nothing_found().await;
    phone
}

async fn the_hours_fit_every_shape(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Fit;
    phone.open().await;
    hours::shown(&mut phone).await;
    phone.nothing_found().await;
    phone
}

async fn what_is_beside_the_way_fits_every_shape(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Fit;
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
