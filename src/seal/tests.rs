use super::random::Counted;
use super::*;

/// As little as Argon2 takes: what is tested here is not how dear a guess is.
const CHEAP: Cost = match Cost::new(8, 1, 1) {
    Ok(cost) => cost,
    Err(_) => panic!("within the bounds"),
};

fn ring() -> (Ring, Keys) {
    Ring::forge("seven wells", CHEAP, &mut Counted(1))
}

#[test]
fn the_passcode_opens_what_it_sealed() {
    let (ring, keys) = ring();
    let sealed = keys.seal_text("entry/a/1", "what was given", &mut Counted(9));
    let again = Ring::read(&ring.text()).unwrap();
    assert_eq!(again, ring);
    let keys = again.open("seven wells").unwrap();
    assert_eq!(keys.open_text("entry/a/1", &sealed).as_deref(), Ok("what was given"));
    assert!(is_sealed(&sealed) && !is_letter(&sealed));
}

#[test]
fn another_passcode_opens_nothing() {
    let (ring, _) = ring();
    for other in ["", "seven well", "Seven wells", "seven wells "] {
        assert_eq!(ring.open(other).err(), Some(RingError::Wrong), "{other}");
    }
}

#[test]
fn a_ring_altered_anywhere_opens_nothing() {
    let text = ring().0.text();
    for at in 0..text.len() {
        let mut altered = text.clone().into_bytes();
        // The next character of its kind, so that the form holds and only the meaning differs.
        altered[at] = match altered[at] {
            b'9' => b'8',
            byte @ (b'0'..=b'8' | b'a'..=b'y' | b'A'..=b'Y') => byte + 1,
            byte => byte ^ 1,
        };
        let altered = String::from_utf8(altered).unwrap();
        let opened = Ring::read(&altered).and_then(|ring| ring.open("seven wells"));
        assert!(opened.is_err(), "{altered}");
    }
}

#[test]
fn a_ring_of_a_later_form_says_so() {
    let text = ring().0.text().replace(r#""form":1"#, r#""form":2,"more":[]"#);
    assert_eq!(Ring::read(&text), Err(RingError::Newer));
    for text in ["", "null", "{}", r#"{"form":1}"#, &text[..40]] {
        assert_eq!(Ring::read(text), Err(RingError::Unreadable), "{text}");
    }
}

#[test]
fn another_passcode_changes_no_record() {
    let (old, keys) = ring();
    let sealed = keys.seal("photo/1", &[1, 2, 3], &mut Counted(9));
    let new = Ring::of(&keys, "eight wells", CHEAP, &mut Counted(40));
    let keys = new.open("eight wells").unwrap();
    assert_eq!(keys.open("photo/1", &sealed), Ok(vec![1, 2, 3]));
    assert_eq!(new.open("seven wells").err(), Some(RingError::Wrong));
    assert!(new.shares_keys(&old) && new.is_of(&keys));
    // Who kept the old ring and the old passcode has the keys still: that is said where one is changed.
    assert!(old.open("seven wells").is_ok());
}

#[test]
fn what_is_sealed_stays_in_its_place_and_as_it_was() {
    let (_, keys) = ring();
    let sealed = keys.seal("entry/a/1", b"2.5 ml", &mut Counted(9));
    assert_eq!(keys.open("entry/a/2", &sealed), Err(Broken));
    for at in 0..sealed.len() {
        let mut altered = sealed.clone();
        altered[at] ^= 1;
        assert_eq!(keys.open("entry/a/1", &altered), Err(Broken), "byte {at}");
        assert_eq!(keys.open("entry/a/1", &sealed[..at]), Err(Broken), "cut at {at}");
    }
    let (other, others) = Ring::forge("seven wells", CHEAP, &mut Counted(2));
    assert_eq!(others.open("entry/a/1", &sealed), Err(Broken));
    assert!(!other.shares_keys(&ring().0) && !other.is_of(&keys));
}

#[test]
fn the_same_text_is_never_sealed_the_same() {
    let (_, keys) = ring();
    let mut random = Counted(9);
    let first = keys.seal_text("entry", "15 units", &mut random);
    assert_ne!(first, keys.seal_text("entry", "15 units", &mut random));
    assert!(!first.contains("15"));
}

#[test]
fn a_letter_is_opened_by_the_keys_and_by_its_own_letterbox() {
    let (ring, keys) = ring();
    let mut random = Counted(70);
    let letterbox = ring.letterbox(&mut random).unwrap();
    let letter = letterbox.seal_text("entry/b/1", "a new case", &mut random);
    assert!(is_letter(&letter));
    assert_eq!(keys.open_text("entry/b/1", &letter).as_deref(), Ok("a new case"));
    assert_eq!(letterbox.open_text("entry/b/1", &letter).as_deref(), Ok("a new case"));
    assert_eq!(keys.open_text("entry/b/2", &letter), Err(Broken));

    // Another of the same phone reads neither it nor what the keys sealed.
    let other = ring.letterbox(&mut random).unwrap();
    assert_eq!(other.open_text("entry/b/1", &letter), Err(Broken));
    let old = keys.seal_text("entry/b/1", "an old case", &mut random);
    assert_eq!(other.open_text("entry/b/1", &old), Err(Broken));
}

#[test]
fn an_altered_letter_is_not_opened() {
    let (ring, keys) = ring();
    let mut random = Counted(70);
    let letter = ring.letterbox(&mut random).unwrap().seal("entry", b"now", &mut random);
    for at in 0..letter.len() {
        let mut altered = letter.clone();
        altered[at] ^= 1;
        assert_eq!(keys.open("entry", &altered), Err(Broken), "byte {at}");
        assert_eq!(keys.open("entry", &letter[..at]), Err(Broken), "cut at {at}");
    }
}

#[test]
fn a_ring_whose_public_key_gives_everybody_the_same_is_no_letterbox() {
    let text = ring().0.text();
    let from = text.find(r#""public":""#).unwrap() + r#""public":""#.len();
    // The point of order one.
    let zero = format!("{}{}{}", &text[..from], "A".repeat(43), &text[from + 43..]);
    let letterbox = Ring::read(&zero).unwrap().letterbox(&mut Counted(1));
    assert!(letterbox.is_err());
}

#[test]
fn names_under_a_key_tell_nothing_and_stay() {
    let (_, keys) = ring();
    assert_eq!(keys.name("a"), keys.name("a"));
    assert_ne!(keys.name("a"), keys.name("b"));
    let (_, others) = Ring::forge("seven wells", CHEAP, &mut Counted(2));
    assert_ne!(keys.name("a"), others.name("a"));
    assert_eq!(keys.name("a").len(), 16);
}

/// As little as scrypt takes.
const EASY: u8 = 1;

#[test]
fn a_file_opens_with_its_passphrase_whatever_its_length() {
    for length in [0, 1, 65_535, 65_536, 65_537, 131_072, 200_000] {
        let bytes: Vec<u8> = (0..length).map(|at: u32| at.to_le_bytes()[0]).collect();
        let file = age::seal("north of the river", EASY, &bytes, &mut Counted(5));
        assert!(age::is_age(&file));
        assert_eq!(age::open("north of the river", &file), Ok(bytes), "{length}");
        assert_eq!(age::open("north of the rivet", &file), Err(age::AgeError::Wrong));
    }
}

#[test]
fn a_file_that_was_altered_or_cut_anywhere_gives_nothing() {
    let file = age::seal("north", EASY, &[7; 100], &mut Counted(5));
    for at in 0..file.len() {
        let mut altered = file.clone();
        altered[at] ^= 1;
        assert!(age::open("north", &altered).is_err(), "byte {at}");
        assert!(age::open("north", &file[..at]).is_err(), "cut at {at}");
    }
    let more = [file.as_slice(), &[0]].concat();
    assert_eq!(age::open("north", &more), Err(age::AgeError::Altered));
}

#[test]
fn pieces_can_be_neither_left_out_nor_moved() {
    let bytes = vec![3; 3 * 65_536];
    let file = age::seal("north", EASY, &bytes, &mut Counted(5));
    let piece = 65_536 + 16;
    let from = file.len() - 3 * piece;
    let without = |at: usize| {
        let mut file = file.clone();
        file.drain(from + at * piece..from + (at + 1) * piece);
        file
    };
    for at in 0..3 {
        assert_eq!(age::open("north", &without(at)), Err(age::AgeError::Altered), "{at}");
    }
    let mut moved = file.clone();
    let (first, second) = moved[from..].split_at_mut(piece);
    first.swap_with_slice(&mut second[..piece]);
    assert_eq!(age::open("north", &moved), Err(age::AgeError::Altered));
}

#[test]
fn what_is_wrong_with_a_file_is_told() {
    use age::AgeError::{NotAge, NotByPassphrase, TooDear};
    for file in ["", "age", "age-encryption.org/v2\n-> scrypt a 1\n", "age-encryption.org/v1\n"] {
        assert_eq!(age::open("north", file.as_bytes()), Err(NotAge), "{file}");
    }
    let file = age::seal("north", EASY, b"text", &mut Counted(5));
    let text = String::from_utf8_lossy(&file).into_owned();
    let other = text.replacen("-> scrypt", "-> X25519", 1);
    assert_eq!(age::open("north", other.as_bytes()), Err(NotByPassphrase));
    let head = |work: &str| {
        let at = text.find(" 1\n").unwrap();
        let text = text.as_bytes();
        [&text[..at], b" ", work.as_bytes(), &text[at + 2..]].concat()
    };
    for dear in ["19", "63", "300", "99999999999"] {
        assert_eq!(age::open("north", &head(dear)), Err(TooDear), "{dear}");
    }
    for misshapen in ["01", "+1", "", "1.0"] {
        assert_eq!(age::open("north", &head(misshapen)), Err(NotAge), "{misshapen}");
    }
}
