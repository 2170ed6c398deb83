//! Photos of a case: side by side over time, deleted when the patient wishes it.

use freshet_browser_tests::flows::around::home;
use freshet_browser_tests::flows::outline::use_it;
use freshet_browser_tests::flows::photo::{kept, traced};
use freshet_browser_tests::phone::{AtEach, Phone};

crate::on_both_engines! {
    side_by_side_and_deleted_for_good
}

async fn side_by_side_and_deleted_for_good(mut phone: Phone) -> Phone {
    phone.open().await;
    traced(&mut phone).await;
    use_it(&mut phone).await;
    let case = phone.run("return new URLSearchParams(location.search).get('case');", vec![]).await;
    let case = case.as_str().unwrap_or_default().to_owned();
    let url = phone.server.url();
    phone.at_each = AtEach::Check;
    phone.go(&format!("{url}?page=photos&case={case}")).await;
    phone.headed("Photos").await;
    phone
        .until(
            "both photos are shown",
            "return document.querySelectorAll('.photo-side img').length === 2;",
        )
        .await;
    phone.see("1 of 1").await;
    phone.at("photos").await;

    // The phone does not let go of it: it is recorded, said, and tried again at the next start.
    let refuse = "
        const remove = IDBObjectStore.prototype.delete;
        IDBObjectStore.prototype.delete = function (...given) {
          if (this.name === 'photos') throw new DOMException('not now', 'UnknownError');
          return remove.apply(this, given);
        };
        return true;";
    phone.run(refuse, vec![]).await;
    phone.tap("Delete a photo").await;
    phone.at("photos-delete").await;
    phone.tap("Delete it for good").await;
    phone.see("Choose which photo, and why.").await;
    phone.tick("The patient asked for it").await;
    let first = "
        const box = [...document.querySelectorAll('dialog[open] label, dialog[open] [role=radio]')]
          .find((label) => label.innerText.startsWith('Photo of'));
        return norm(box.innerText);";
    let name = phone.run(first, vec![]).await;
    phone.tick(name.as_str().unwrap_or_default()).await;
    phone.tap("Delete it for good").await;
    phone.see("It is recorded as deleted, but the phone did not let go of it yet.").await;
    lying(&mut phone, 1).await;

    phone.reload().await;
    phone.headed("Photos").await;
    phone.see("The patient asked for it.").await;
    phone.see_no("Delete a photo").await;
    phone.at("photos-deleted").await;
    lying(&mut phone, 0).await;
    home(&mut phone).await;
    phone.nothing_found().await;
    phone
}

/// The database holds so many photos.
async fn lying(phone: &mut Phone, wanted: usize) {
    let lie = kept(phone).await.len();
    phone.sure(lie == wanted, &format!("{lie} photos lie there")).await;
}
