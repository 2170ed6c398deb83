//! The look of the screen: chosen, worn at once, kept, and there before the app runs.

use freshet_browser_tests::engine::Engine;
use freshet_browser_tests::flows::around::home;
use freshet_browser_tests::flows::urgent::to_first_draw;
use freshet_browser_tests::phone::Phone;
use serde_json::{Value as Json, json};

crate::on_both_engines! { a_theme_is_chosen_worn_and_kept }
// Firefox takes more contrast from the desktop's own colours alone.
crate::on_engine! { blink Chromium: more_contrast_is_the_sunlight_theme }
crate::on_engine! { webkit WebKit: a_theme_is_chosen_worn_and_kept }

/// The ground, the ink, the weight of a heading, and what colours the phone's bars.
const WORN: &str = "
    const of = (el) => getComputedStyle(el);
    const bar = [...document.querySelectorAll('meta[name=theme-color]')].find((meta) => matchMedia(meta.media || 'all').matches);
    return [of(document.documentElement).backgroundColor, of(document.body).color, of(document.querySelector('h1')).fontWeight, bar?.content];";

const LIGHT: [&str; 4] = ["rgb(247, 244, 238)", "rgb(19, 35, 43)", "650", "#f7f4ee"];
const DARK: [&str; 4] = ["rgb(14, 22, 24)", "rgb(238, 241, 238)", "650", "#0e1618"];
const SUNLIGHT: [&str; 4] = ["rgb(255, 255, 255)", "rgb(10, 10, 10)", "800", "#ffffff"];

async fn wears(phone: &mut Phone, theme: [&str; 4]) {
    let worn = phone.run(WORN, vec![]).await;
    phone.sure(worn == json!(theme), &format!("it wears {worn}, not {theme:?}")).await;
}

async fn choose(phone: &mut Phone, theme: &str) {
    phone.tap("Sunlight, light or dark").await;
    phone.headed("How the screen looks").await;
    phone.tick(theme).await;
}

async fn a_theme_is_chosen_worn_and_kept(mut phone: Phone) -> Phone {
    phone.open().await;
    wears(&mut phone, LIGHT).await;
    choose(&mut phone, "Sunlight").await;
    wears(&mut phone, SUNLIGHT).await;
    phone.tap("Close").await;
    phone.reload().await;
    wears(&mut phone, SUNLIGHT).await;
    // In the middle of a case too, and the case stays where it is.
    to_first_draw(&mut phone).await;
    let heading = phone.heading().await;
    phone.tap("Hard to see? Sunlight or dark").await;
    phone.tick("Dark").await;
    wears(&mut phone, DARK).await;
    phone.tap("Close").await;
    phone.headed(&heading).await;
    if phone.engine != Engine::WebKit {
        // What the phone prefers does not count against it.
        phone.set_dark(true).await;
    }
    home(&mut phone).await;
    wears(&mut phone, DARK).await;
    choose(&mut phone, "Light").await;
    wears(&mut phone, LIGHT).await;
    phone.tick("As the phone").await;
    let phones = if phone.engine == Engine::WebKit { LIGHT } else { DARK };
    wears(&mut phone, phones).await;
    phone
}

async fn more_contrast_is_the_sunlight_theme(mut phone: Phone) -> Phone {
    phone.open().await;
    phone.set_contrast(true).await;
    wears(&mut phone, SUNLIGHT).await;
    choose(&mut phone, "Dark").await;
    let worn = phone.run(WORN, vec![]).await;
    let black = worn[0] == json!("rgb(0, 0, 0)") && worn[2] == json!("800");
    phone.sure(black, &format!("dark with more contrast wears {worn}")).await;
    phone.tick("As the phone").await;
    phone.tap("Close").await;
    phone.set_contrast(false).await;
    wears(&mut phone, LIGHT).await;
    system_colours(&mut phone).await;
    phone
}

/// With the system's own few colours each thing that is pressed still has an edge.
async fn system_colours(phone: &mut Phone) {
    const BARE: &str = "
        return buttons().concat(options())
          .filter((el) => { const { borderTopWidth, borderTopStyle, textDecorationLine } = getComputedStyle(el);
            return !(parseFloat(borderTopWidth) > 0 && borderTopStyle !== 'none') && !/underline/.test(textDecorationLine) && !el.matches('.row, .top-back, .top-theme, .see-better'); })
          .map((el) => el.className);";
    let params = json!({"features": [{"name": "forced-colors", "value": "active"}]});
    phone.devtools("Emulation.setEmulatedMedia", params).await;
    let bare = phone.run(BARE, vec![]).await;
    phone.sure(bare == Json::Array(vec![]), &format!("no edge with forced colours: {bare}")).await;
    phone.devtools("Emulation.setEmulatedMedia", json!({"features": []})).await;
}
