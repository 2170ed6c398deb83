use super::*;
use crate::measure::{Area, Hash};
use crate::plane::{Dot, Extent, Scale};
use proptest::prelude::*;
use proptest::sample::Index;

fn view(view: View, measured: Option<Length>) -> (Work, Picture) {
    let mut work = Work::on_view(view);
    work.measure(view, measured);
    let picture = Picture::of(&work.ground().unwrap()).unwrap();
    (work, picture)
}

fn photo() -> (Work, Picture) {
    let extent = Extent { width: 1_200, height: 1_600 };
    let mut work = Work::on_view(View::Front);
    work.use_photo(Photo { name: Hash::of(b"photo"), extent });
    let shot = work.shot_mut().unwrap();
    // 856 × 539.8 pixels: ten to a millimetre.
    for (place, at) in
        [(100.0, 100.0), (956.0, 100.0), (956.0, 639.8), (100.0, 639.8)].into_iter().enumerate()
    {
        shot.put(place, at);
    }
    shot.settled = true;
    let picture = Picture::of(&work.ground().unwrap()).unwrap();
    (work, picture)
}

/// A square in the picture, as a finger runs round it.
fn square((x, y): Place, side: f64) -> Vec<Place> {
    let corners = [(x, y), (x + side, y), (x + side, y + side), (x, y + side), (x, y)];
    let along = |from: Place, to: Place, part: f64| {
        (from.0 + (to.0 - from.0) * part, from.1 + (to.1 - from.1) * part)
    };
    let sides = corners.windows(2);
    sides.flat_map(|ends| (0..100).map(|n| along(ends[0], ends[1], f64::from(n) / 100.0))).collect()
}

fn draw(work: &mut Work, picture: &Picture, kind: Kind, places: &[Place]) {
    let stroke = work.stroke(picture, kind, places).unwrap();
    work.sketch_mut().unwrap().draw(stroke).unwrap();
}

fn area(work: &Work, picture: &Picture) -> Area {
    work.traced(picture, None).unwrap().outline.area()
}

#[test]
fn a_drawing_measured_later_changes_the_size_and_not_the_place() {
    let (mut work, standard) = view(View::Lips, None);
    draw(&mut work, &standard, Kind::Skin, &square((-1_000.0, 0.0), 2_000.0));
    assert_eq!(area(&work, &standard), Area::mm2(400));
    let before = work.sketch().cloned();
    work.measure(View::Lips, Some(Length::tenths(572)));
    let larger = Picture::of(&work.ground().unwrap()).unwrap();
    assert_eq!(area(&work, &larger), Area::mm2(484), "400 mm² by 1.1 squared");
    assert_eq!(work.sketch().cloned(), before);
    // The mouth is as wide in the other view from the front, and no nose is longer for it.
    assert_eq!(work.measured(View::Front), Some(Length::tenths(572)));
    assert_eq!(work.measured(View::Left), None);
}

#[test]
fn nothing_is_lost_by_looking_at_something_else() {
    let (mut work, picture) = view(View::Front, None);
    draw(&mut work, &picture, Kind::Skin, &square((0.0, 0.0), 1_000.0));
    work.look_at(On::View(View::Left));
    assert!(work.is_empty());
    work.look_at(On::Photo);
    assert_eq!((work.on(), work.ground()), (On::NewPhoto, None), "there is no photo");
    work.look_at(On::View(View::Front));
    assert_eq!(area(&work, &picture), Area::mm2(100));
}

#[test]
fn a_photo_used_again_is_as_it_was_left() {
    let (mut work, picture) = photo();
    draw(&mut work, &picture, Kind::Skin, &square((300.0, 900.0), 200.0));
    let first = work.shot().unwrap().photo;
    work.use_photo(Photo { name: Hash::of(b"another"), ..first });
    assert!(work.is_empty() && work.ground().is_none());
    work.use_photo(first);
    assert_eq!(area(&work, &picture), Area::mm2(400));
}

#[test]
fn a_deleted_photo_is_not_drawn_on_anew_and_no_stroke_is_lost() {
    let (mut work, picture) = photo();
    let first = work.shot().unwrap().photo;
    work.use_photo(Photo { name: Hash::of(b"another"), ..first });
    let before = work.clone().passing_over(|name| name != first.name);
    assert_eq!((before.on(), before.shot().unwrap().photo), (On::Photo, first));
    let none = work.clone().passing_over(|_| true);
    assert_eq!((none.on(), none.shot()), (On::NewPhoto, None));
    work.use_photo(first);
    draw(&mut work, &picture, Kind::Skin, &square((300.0, 900.0), 200.0));
    let work = work.passing_over(|_| true);
    assert_eq!((work.shot().unwrap().photo, area(&work, &picture)), (first, Area::mm2(400)));
}

#[test]
fn a_stroke_is_simplified_and_can_be_pulled_anywhere() {
    let (work, picture) = view(View::Front, None);
    let stroke = work.stroke(&picture, Kind::Skin, &square((0.0, 0.0), 4_000.0)).unwrap();
    assert!((80..=84).contains(&stroke.spots.len()), "{}", stroke.spots.len());
    for pair in stroke.spots.windows(2) {
        assert!(pair[0].distance(pair[1]) <= LONGEST_SIDE + 0.01);
    }
}

#[test]
fn what_was_drawn_comes_back_from_the_record() {
    for (mut work, picture) in [view(View::Right, Some(Length::mm(52))), photo()] {
        let at = picture.show(Spot::new(-1_000, 2_000)).unwrap();
        let side = picture.show(Spot::new(2_000, 2_000)).unwrap().0 - at.0;
        draw(&mut work, &picture, Kind::Skin, &square(at, side));
        draw(&mut work, &picture, Kind::Hole, &square((at.0 + 1.0, at.1 + 1.0), side / 2.0));
        let ground = work.ground().unwrap();
        let outline = work.traced(&picture, None).unwrap().outline;
        let again = Work::of(&Outlined { ground: ground.clone(), outline: outline.clone() });
        let again = again.unwrap();
        assert_eq!((again.on(), again.ground()), (work.on(), Some(ground)));
        let back = area(&again, &picture);
        assert!(back.gap(outline.area()) <= Area::mm2(1), "{back:?} {:?}", outline.area());
        assert!(!again.sketch().unwrap().can_undo());
        let text = serde_json::to_string(&again).unwrap();
        assert_eq!(serde_json::from_str::<Work>(&text).unwrap(), again);
    }
}

#[test]
fn the_last_outline_lies_where_it_was_drawn_and_nowhere_else() {
    for (mut before, picture) in [view(View::Lips, None), photo()] {
        let at = picture.show(Spot::new(-1_000, 2_000)).unwrap();
        draw(&mut before, &picture, Kind::Skin, &square(at, 100.0));
        let mut work = before.emptied();
        assert!(work.is_empty() && work.ground() == before.ground());
        let last = work.strokes_of(&before).unwrap();
        work.sketch_mut().unwrap().replace(last);
        assert_eq!(area(&work, &picture), area(&before, &picture));
        work.sketch_mut().unwrap().undo();
        assert!(work.is_empty() && before.strokes_of(&work).is_none());
        work.look_at(On::View(View::Left));
        assert_eq!(work.strokes_of(&before), None);
    }
    let (mut before, picture) = photo();
    draw(&mut before, &picture, Kind::Skin, &square((300.0, 900.0), 200.0));
    let mut work = before.emptied();
    let first = work.shot().unwrap().photo;
    work.use_photo(Photo { name: Hash::of(b"another"), ..first });
    assert_eq!(work.strokes_of(&before), None, "another photo");
}

#[test]
fn it_says_why_there_is_no_outline() {
    let (mut work, picture) = view(View::Front, None);
    let why = |work: &Work| work.traced(&picture, None).unwrap_err();
    assert_eq!(why(&work), Wrong::Nothing);
    let line: Vec<Place> = (0..50).map(|n| (f64::from(n) * 100.0, 0.0)).collect();
    let line = work.stroke(&picture, Kind::Skin, &line).unwrap();
    assert_eq!(work.traced(&picture, Some(line)).unwrap_err(), Wrong::Line);
    draw(&mut work, &picture, Kind::Skin, &square((0.0, 0.0), 1_000.0));
    draw(&mut work, &picture, Kind::Hole, &square((-500.0, -500.0), 2_000.0));
    assert_eq!(why(&work), Wrong::AllOut);
}

#[test]
fn a_stroke_beyond_the_horizon_is_none() {
    let (mut work, _) = photo();
    // As a camera sees a card that is tilted by 25 degrees.
    let corners = [(453.8, 381.7), (938.9, 489.2), (848.1, 767.0), (408.2, 679.5)];
    for (place, at) in corners.into_iter().enumerate() {
        work.shot_mut().unwrap().put(place, at);
    }
    let picture = Picture::of(&work.ground().unwrap()).unwrap();
    let drawn = |y: f64| work.stroke(&picture, Kind::Skin, &square((600.0, y), 50.0)).is_some();
    assert!(drawn(800.0) && (drawn(800.0 - 3_500.0) != drawn(800.0 + 3_500.0)));
}

#[test]
fn zones_are_those_drawn_whole_and_those_under_a_patch() {
    let (mut work, picture) = view(View::Front, Some(Length::mm(57)));
    let cheek = View::Front.zones().into_iter().find(|(zone, _)| *zone == Zone::Cheek).unwrap().1;
    let stroke = Stroke { kind: Kind::Skin, spots: cheek.clone() };
    let sketch = work.sketch_mut().unwrap();
    sketch.toggle(stroke);
    assert!(is_drawn(sketch.strokes(), &cheek));
    draw(&mut work, &picture, Kind::Skin, &square((-400.0, -6_800.0), 800.0));
    let outline = work.traced(&picture, None).unwrap().outline;
    let mut zones = work.zones(&picture, &outline);
    zones.sort_unstable();
    zones.dedup();
    assert_eq!(zones, [Zone::Glabella, Zone::Cheek]);
}

#[test]
fn the_drawing_that_fits_shows_both_sides_of_what_has_two() {
    assert_eq!(fitting(&[Zone::LowerLip]), View::Lips);
    assert_eq!(fitting(&[Zone::LowerLip, Zone::NoseTip]), View::Front);
    assert_eq!(fitting(&[Zone::Cheek]), View::Front);
    assert_eq!(fitting(&[]), View::Front);
}

#[test]
fn a_card_that_cannot_be_right_gives_no_work() {
    let extent = Extent { width: 1_200, height: 1_600 };
    let photo = Photo { name: Hash::of(b"photo"), extent };
    let scale = Scale::Card([(0, 0), (10, 0), (10, 10), (0, 10)].map(Dot::from));
    let outlined = Outlined { ground: Ground::Photo { photo, scale }, outline: Outline::default() };
    assert_eq!(Work::of(&outlined), None);
}

proptest! {
    /// A draft that was spoilt where it lay is let go, or read and gone on with; never a panic.
    #[test]
    fn a_spoilt_draft_is_let_go_or_gone_on_with(
        on_photo in any::<bool>(),
        at in any::<Index>(),
        sign in prop::sample::select(&b"0123456789-.,[]{}\"e \xff"[..]),
        end in any::<Index>(),
        cut in prop::bool::weighted(0.2),
    ) {
        let (mut work, picture) = if on_photo { photo() } else { view(View::Lips, None) };
        draw(&mut work, &picture, Kind::Skin, &square((100.0, 200.0), 300.0));
        let mut text = serde_json::to_vec(&work).unwrap();
        let at = at.index(text.len());
        text[at] = sign;
        if cut {
            text.truncate(end.index(text.len()));
        }
        let text = String::from_utf8_lossy(&text).into_owned();
        if let Ok(read) = serde_json::from_str::<Work>(&text) {
            let _ = (read.is_empty(), read.emptied(), read.shot().is_some());
            if let Some(picture) = read.ground().and_then(|ground| Picture::of(&ground).ok()) {
                let _ = read.traced(&picture, None);
            }
        }
    }
}
