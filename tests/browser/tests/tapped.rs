//! Without dragging: a territory tapped corner by corner, and the marks on a photo put by taps.

use freshet_browser_tests::flows::outline::{EMPTY, measures, to_face, use_it};
use freshet_browser_tests::flows::photo::{TILTED, choose_good, corners, to_photo};
use freshet_browser_tests::phone::Phone;
use freshet_browser_tests::photo::TempFile;

crate::on_both_engines! { a_territory_is_tapped_corner_by_corner marks_are_put_by_taps }

async fn a_territory_is_tapped_corner_by_corner(mut phone: Phone) -> Phone {
    phone.open().await;
    to_face(&mut phone, "Lips").await;
    let canvas = phone.canvas().await;
    // Beside the lips, where no zone is.
    let [low, high] = canvas.corners;
    let inset = 12.0;
    let side = 90.0_f64;
    let from = (low.0 + inset, low.1 + inset);
    assert!(from.0 + side < high.0 && from.1 + side < high.1, "the canvas is too small");
    let taps = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)];
    for (n, (dx, dy)) in taps.into_iter().enumerate() {
        phone.touch(((from.0 + dx).round(), (from.1 + dy).round())).await;
        let corners = if n == 0 { "1 corner.".to_owned() } else { format!("{} corners.", n + 1) };
        phone.see(&corners).await;
        phone.pause().await;
    }
    // Nothing is taken as long as the round is open.
    phone.see("Close the round that was tapped, or undo it.").await;
    phone.headed(EMPTY).await;
    phone.tap("Undo").await;
    phone.see("3 corners.").await;
    // Pressing it may have moved the page.
    let now = phone.canvas().await.corners[0];
    let (dx, dy) = taps[3];
    phone.touch(((now.0 + inset + dx).round(), (now.1 + inset + dy).round())).await;
    phone.see("4 corners.").await;
    phone.tap("Close it").await;
    // The unit of the picture is a hundredth of a millimetre.
    let mm = side / canvas.scale / 100.0;
    measures(&mut phone, mm * mm / 100.0, 5.0).await;
    use_it(&mut phone).await;
    phone
}

async fn marks_are_put_by_taps(mut phone: Phone) -> Phone {
    phone.open().await;
    to_photo(&mut phone).await;
    let file = TempFile::new("card.bmp", &TILTED.bmp());
    choose_good(&mut phone, &file).await;
    // Those farthest from where they belong first: a tap on a mark that lies there chooses that mark.
    let corners = corners(&TILTED);
    for n in [2, 3, 1, 0] {
        let corner = corners[n];
        phone.tap_mark(&format!("Corner {}", n + 1)).await;
        let canvas = phone.canvas().await;
        let (x, y) = canvas.screen(corner);
        phone.touch((x.round(), y.round())).await;
    }
    phone.see("Tilt").await;
    phone.go_on("Draw on it").await;
    phone
}
