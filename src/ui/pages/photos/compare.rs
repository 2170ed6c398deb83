//! Two photos side by side, and which two.

use super::{Album, One, when};
use crate::case::Picture;
use crate::measure::Hash;
use crate::ui::words::photos as said;
use leptos::prelude::*;

/// Two photos by name, the left one first.
type Two = (Hash, Hash);

/// A place of the two.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Place {
    Left,
    Right,
}

/// Which two are shown: those chosen, as far as they are there, else the first and the newest, since
/// what is looked for is what became of it. Never one twice; `None` where there are no two.
fn two(there: &[Picture], chosen: Option<Two>) -> Option<(Picture, Picture)> {
    let [first, .., newest] = there else { return None };
    let find = |name| there.iter().find(|one| one.name == name);
    let (left, right) = chosen.map_or((None, None), |(left, right)| (find(left), find(right)));
    let left = left.unwrap_or(if right == Some(first) { newest } else { first });
    let right = right.unwrap_or(if left == newest { first } else { newest });
    Some((*left, *right))
}

/// A photo put into a place; the other takes its place where it was on the other side.
fn put(shown: Two, place: Place, name: Hash) -> Two {
    let (left, right) = shown;
    match place {
        Place::Left => (name, if name == right { left } else { right }),
        Place::Right => (if name == left { right } else { left }, name),
    }
}

/// Two photos side by side; where there are more, which two.
#[component]
pub(super) fn Compare(album: Album) -> impl IntoView {
    let there = album.there;
    let chosen = RwSignal::new(None::<Two>);
    let shown = Memo::new(move |_| two(&there.read(), chosen.get()));
    let left = Signal::derive(move || shown.get().map(|(left, _)| left));
    let right = Signal::derive(move || shown.get().map(|(_, right)| right));
    let more = Memo::new(move |_| there.read().len() > 2);
    view! {
        <div class="photo-pair">
            <One album picture=left label=said::left() />
            <One album picture=right label=said::right() />
        </div>
        <p class="hint">{said::tap()}</p>
        {move || {
            more.get()
                .then(|| {
                    let rows = move || {
                        let row = |one| view! { <Choosing album one shown chosen /> };
                        there.get().into_iter().map(row).collect_view()
                    };
                    view! {
                        <section>
                            <h2>{said::which_two()}</h2>
                            <ol class="photo-list">{rows}</ol>
                        </section>
                    }
                })
        }}
    }
}

/// A photo in the list, and the two places that it can be put into.
#[component]
fn Choosing(
    album: Album,
    one: Picture,
    shown: Memo<Option<(Picture, Picture)>>,
    chosen: RwSignal<Option<Two>>,
) -> impl IntoView {
    let button = move |place: Place, word: &'static str| {
        let pressed = move || {
            let there = shown.get().is_some_and(|(left, right)| match place {
                Place::Left => left == one,
                Place::Right => right == one,
            });
            if there { "true" } else { "false" }
        };
        let choose = move |_| {
            let now = shown.get_untracked().map(|(left, right)| (left.name, right.name));
            chosen.set(now.map(|now| put(now, place, one.name)));
        };
        view! {
            <button
                type="button"
                class="button quiet"
                aria-label=said::put(word, one.at)
                aria-pressed=pressed
                on:click=choose
            >
                {word}
            </button>
        }
    };
    view! {
        <li>
            <p>{move || when(album, one.at)}</p>
            {button(Place::Left, said::on_left())}
            {button(Place::Right, said::on_right())}
        </li>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Moment;

    fn name(n: u8) -> Hash {
        Hash::of(&[n])
    }

    fn pictures(names: &[u8]) -> Vec<Picture> {
        let picture = |n: &u8| Picture {
            at: Moment::from_millis(i64::from(*n)),
            name: name(*n),
            removed: None,
        };
        names.iter().map(picture).collect()
    }

    fn shown(there: &[u8], chosen: Option<(u8, u8)>) -> Option<Two> {
        let chosen = chosen.map(|(left, right)| (name(left), name(right)));
        two(&pictures(there), chosen).map(|(left, right)| (left.name, right.name))
    }

    #[test]
    fn the_first_and_the_newest_are_shown_until_others_are_chosen() {
        let pair = |left, right| Some((name(left), name(right)));
        assert_eq!(shown(&[1, 2, 3], None), pair(1, 3));
        assert_eq!(shown(&[1, 2, 3], Some((2, 3))), pair(2, 3));
        assert_eq!((shown(&[1], None), shown(&[], None)), (None, None));
    }

    #[test]
    fn one_that_is_deleted_gives_way_and_none_is_shown_twice() {
        let pair = |left, right| Some((name(left), name(right)));
        assert_eq!(shown(&[1, 3], Some((2, 3))), pair(1, 3));
        assert_eq!(shown(&[1, 3], Some((2, 1))), pair(3, 1));
        assert_eq!(shown(&[1, 3], Some((3, 2))), pair(3, 1));
        assert_eq!(shown(&[1, 3], Some((2, 4))), pair(1, 3));
    }

    #[test]
    fn one_put_where_it_is_not_changes_places_with_the_other() {
        let (one, two, three) = (name(1), name(2), name(3));
        assert_eq!(put((one, two), Place::Left, three), (three, two));
        assert_eq!(put((one, two), Place::Left, two), (two, one));
        assert_eq!(put((one, two), Place::Right, one), (two, one));
        assert_eq!(put((one, two), Place::Right, two), (one, two));
    }
}
