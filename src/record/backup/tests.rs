use super::*;
use crate::case::Event;
use crate::record::samples;
use crate::record::tar::tests::write as archive;
use crate::seal::random::Counted;

const EASY: u8 = 1;

fn made() -> Moment {
    Moment::from_millis(1_795_615_500_000)
}

fn by_case(journals: &[Journal]) -> Vec<(CaseId, String)> {
    journals.iter().map(|journal| (journal.case(), journal.lines())).collect()
}

fn whole(journals: &[Journal]) -> Sorted {
    sorted(by_case(journals), &BTreeSet::new())
}

fn backup(sorted: &Sorted, photos: &[&[u8]]) -> Vec<u8> {
    let random = &mut Counted(3);
    let mut making = Making::at_cost(EASY, "north", sorted, "What this is.", made(), random);
    for photo in photos {
        making.photo(photo);
    }
    making.end().concat()
}

fn plain(journals: Vec<Arc<Journal>>) -> Vec<Journal> {
    journals.into_iter().map(Arc::unwrap_or_clone).collect()
}

/// A backup as somebody else might have made it.
fn foreign(files: &[(&str, &[u8])]) -> Result<Backup, BackupError> {
    let files: Vec<_> =
        files.iter().map(|(name, bytes)| ((*name).to_owned(), bytes.to_vec())).collect();
    let file = age::seal("north", EASY, &archive(&files, made()), &mut Counted(1));
    read(&file, "north")
}

#[test]
fn everything_comes_back() {
    let mut journals = [samples::occlusion().journal, samples::just_done().journal];
    let large = vec![9; 200_000];
    let photos: [&[u8]; 2] = [&[0xff, 0xd8, 0xff, 1], &large];
    let back = read(&backup(&whole(&journals), &photos), "north").unwrap();
    assert_eq!(back.photos().collect::<Vec<_>>(), photos.map(Hash::of));
    for photo in photos {
        assert_eq!(back.photo(Hash::of(photo)), Some(photo));
    }
    assert_eq!(back.photo(Hash::of(b"another")), None);
    journals.sort_by_key(Journal::case);
    assert_eq!((plain(back.journals), back.damaged), (journals.to_vec(), 0));
}

#[test]
fn a_phone_without_a_case_has_a_backup() {
    let back = read(&backup(&Sorted::default(), &[]), "north").unwrap();
    assert_eq!((back.journals, back.damaged), (Vec::new(), 0));
}

/// A phone whose record was damaged must still have a backup that can be taken in; and of a journal
/// that lacks its end nobody is to think that it is all.
#[test]
fn what_is_not_whole_goes_in_beside_the_rest_and_is_told() {
    let (good, bad) = (samples::occlusion().journal, samples::just_done().journal);
    let lines = bad.lines();
    let first = lines.lines().next().unwrap();
    let other = Entry::read(good.lines().lines().next().unwrap()).unwrap().line();
    let newer = format!("{{\"schema\":{}}}", crate::case::SCHEMA + 1);
    let newer = format!("{} {newer}\n", Hash::of(newer.as_bytes()));
    let cases = [
        ("altered", lines.replacen("pale", "dusk", 1).replacen("A-", "B-", 1)),
        ("without its first", lines[first.len() + 1..].to_owned()),
        ("with one that is no entry", lines.clone() + "x\n"),
        ("with one of another case", lines.clone() + &other + "\n"),
        ("with one of a later version", lines.clone() + &newer),
    ];
    for (what, text) in cases {
        assert_ne!(text, lines, "{what}");
        let count = text.lines().count();
        let by_case = [(good.case(), good.lines()), (bad.case(), text.clone())];
        let sorted = sorted(by_case, &BTreeSet::new());
        assert_eq!(
            (sorted.journals.as_slice(), &sorted.damaged),
            ([good.clone()].as_slice(), &text)
        );
        let back = read(&backup(&sorted, &[]), "north").unwrap();
        assert_eq!((plain(back.journals), back.damaged), (vec![good.clone()], count), "{what}");
    }
    // A line of it cannot be read elsewhere: what is left looks whole and may lack its end.
    let hurt = sorted(by_case(&[good.clone(), bad.clone()]), &BTreeSet::from([bad.case()]));
    assert_eq!((hurt.journals, hurt.damaged), (vec![good], lines));
}

#[test]
fn what_is_wrong_is_told() {
    let journal = samples::occlusion().journal;
    let file = backup(&whole(std::slice::from_ref(&journal)), &[]);
    assert_eq!(read(&file, "south"), Err(BackupError::Sealed(AgeError::Wrong)));
    assert_eq!(read(b"Dear colleague", "north"), Err(BackupError::Sealed(AgeError::NotAge)));
    let lines = journal.lines();
    let cut = foreign(&[(RECORDS, &lines.as_bytes()[..lines.len() - 40])]);
    assert!(matches!(cut, Err(BackupError::Records(Unread::Truncated(_)))), "{cut:?}");
    let altered = lines.replacen("A-17", "A-18", 1);
    let altered = foreign(&[(RECORDS, altered.as_bytes())]);
    assert_eq!(altered, Err(BackupError::Records(Unread::Altered(1))));
    let newer = format!("{{\"schema\":{}}}", crate::case::SCHEMA + 1);
    let newer = format!("{} {newer}\n", Hash::of(newer.as_bytes()));
    let newer = foreign(&[(RECORDS, newer.as_bytes())]);
    assert_eq!(newer, Err(BackupError::Records(Unread::Newer(1))));
    let binary = foreign(&[(RECORDS, &[0xff])]);
    assert_eq!(binary, Err(BackupError::Records(Unread::NotText)));
    let named = format!("{PHOTOS}{}{PICTURE}", Hash::of(b"one"));
    for name in [named.as_str(), "freshet/photos/one.jpg"] {
        let photo = foreign(&[(RECORDS, lines.as_bytes()), (name, b"another")]);
        assert_eq!(photo, Err(BackupError::Photo), "{name}");
    }
    let letter = age::seal("north", EASY, b"a letter", &mut Counted(1));
    assert_eq!(read(&letter, "north"), Err(BackupError::Archive(TarError::Cut)));
    assert_eq!(foreign(&[]), Err(BackupError::NoRecords));
    assert_eq!(foreign(&[("notes.txt", b"text")]), Err(BackupError::NoRecords));
    // What a later version adds beside them is passed over.
    assert!(foreign(&[(RECORDS, b""), ("freshet/more.txt", b"text")]).is_ok());
}

#[test]
fn a_photo_that_makes_it_too_large_has_no_room() {
    let random = &mut Counted(3);
    let mut making = Making::at_cost(EASY, "north", &Sorted::default(), "", made(), random);
    let most = LARGEST - LARGEST / 1_000;
    assert!(making.has_room(most - 5_000) && !making.has_room(most));
    making.photo(&[1; 5_000]);
    assert!(!making.has_room(most - 5_000));
}

#[test]
fn a_case_goes_in_as_it_stands_when_two_claim_one_place() {
    let mut one = Journal::new(CaseId::from_random(5));
    let mut other = one.clone();
    one.append(made(), 0, Event::Note("one".into()));
    other.append(made(), 0, Event::Note("other".into()));
    let both = one.lines() + &other.lines();
    let sorted = sorted([(one.case(), both.clone())], &BTreeSet::new());
    assert_eq!((sorted.journals, sorted.damaged), (Vec::new(), both));
}
