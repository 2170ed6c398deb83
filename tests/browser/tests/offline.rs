//! No network: after the first visit none is needed, and none but the app's own host is asked.

use freshet_browser_tests::build::dist;
use freshet_browser_tests::flows::around::{home, open_case};
use freshet_browser_tests::flows::urgent::to_first_draw;
use freshet_browser_tests::phone::Phone;
use freshet_browser_tests::server::Server;
use serde_json::{Value as Json, json};

crate::on_both_engines! { works_without_a_network other_origins_are_refused }

/// The worker says that every file is on the phone.
pub const KEPT: &str = "return document.documentElement.dataset.offline === 'ready';";

async fn works_without_a_network(mut phone: Phone) -> Phone {
    phone.open().await;
    phone.until("the app is on the phone", KEPT).await;
    phone.server.stop();
    phone.reload().await;
    phone.see("New case").await;
    to_first_draw(&mut phone).await;
    let heading = phone.heading().await;
    // In the middle of a case, where the address names it.
    phone.reload().await;
    phone.headed(&heading).await;
    // And from nothing, still without a network.
    phone.kill();
    phone.open().await;
    open_case(&mut phone).await;
    phone.headed(&heading).await;

    // What it is made of can be read without one too.
    home(&mut phone).await;
    phone.tap("About and cautions").await;
    phone.tap("Licences").await;
    phone.see("leptos 0.").await;
    phone
}

/// Asks another origin for a page, a picture and a script.
const ASK: &str = "
    const [address, done] = arguments;
    const broken = [];
    document.addEventListener('securitypolicyviolation', (event) => broken.push(event.effectiveDirective));
    const image = new Image();
    const picture = new Promise((end) => { image.onload = () => end('loaded'); image.onerror = () => end('refused'); });
    image.src = `${address}icons/mark.svg`;
    const script = document.createElement('script');
    const code = new Promise((end) => { script.onload = () => end('loaded'); script.onerror = () => end('refused'); });
    script.src = `${address}boot.js`;
    document.head.append(script);
    const asked = fetch(address, { mode: 'no-cors' }).then(() => 'answered', () => 'refused');
    Promise.all([asked, picture, code]).then((ends) => setTimeout(() => done({ ends, broken }), 200));";

async fn other_origins_are_refused(mut phone: Phone) -> Phone {
    phone.open().await;
    let other = Server::start(&dist());
    let told = phone.client().execute_async(ASK, vec![json!(other.url())]).await;
    let told = told.unwrap_or_else(|error| json!(error.to_string()));
    let refused = told["ends"] == json!(["refused", "refused", "refused"]);
    phone.sure(refused, &format!("another origin was asked: {told}")).await;
    let broken: Vec<&str> =
        told["broken"].as_array().into_iter().flatten().filter_map(Json::as_str).collect();
    let by_policy = broken.contains(&"connect-src") && broken.contains(&"img-src");
    phone.sure(by_policy, &format!("not refused by the page's policy: {told}")).await;
    let asked = other.asked();
    phone.sure(asked.is_empty(), &format!("the other host was reached: {asked:?}")).await;
    phone
}
