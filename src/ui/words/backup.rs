//! A backup: making one, and taking one in.

use super::{about, app, numbers, records, time};
use crate::measure::Moment;
use crate::phone::clock;
use crate::phone::file::FileError;
use crate::record::backup::{BackupError, LARGEST};
use crate::record::merge::{Merge, Print, Standing};
use crate::seal::age::{AgeError, LEAST};
use crate::store::Refusal;
use crate::store::habits::Backing;
use crate::ui::desk::{Progress, Taken};
use crate::ui::language::spoken;
use crate::ui::pages::backup::{Made, NotMade};
use crate::ui::pages::taking::Unfit;

/// No kind of its own is registered for files of this form.
pub const KIND: &str = "application/octet-stream";

words! {
    pub title = "Backup";
    pub home_detail = "Every case and photo in one sealed file; a new phone filled from one";

    pub why = "One file with every case and photo, the kit and the clinic’s values. It is \
    sealed: only its passphrase opens it, here or on another phone.";
    pub passphrase = "Passphrase";
    pub again = "The same again";
    pub final_heading = "A forgotten passphrase is final";
    pub final_label = "Nobody can open the file without it: not you, not us. Write it down, and keep \
    it apart from the file. It is not the passcode of this phone.";
    pub differs = "The two are not the same.";
    pub make = "Make a backup";
    pub sealing = "Sealing. This takes some seconds: keep the app open.";

    pub made_label = "The backup is ready";
    pub nowhere_yet = "It is kept nowhere yet.";
    pub where_label = "Put it where patient records belong, on something that is not this phone: what \
    takes the phone must not take its backup.";
    pub save = "Save the file";
    pub send = "Send it to another app";
    pub done = "Done";

    pub restore = "Restore";
    pub restore_from = "Restore from a backup";
    pub restore_why = "On a new phone, or after cases were lost. You see what is in it first; \
    nothing here is changed or replaced.";
    pub empty = "Nothing is on this phone yet that could be saved.";
    pub once_more = "The file is one that this app made on another phone, or on this one \
    before. Its passphrase is asked for next.";

    pub sealed_label = "This backup is sealed";
    pub sealed_why = "Type its passphrase. You see what is in it before anything is taken in.";
    pub type_first = "Type the passphrase.";
    pub open = "Open it";
    pub opening = "Opening. This takes some seconds.";
    pub wrong = "It does not open with this passphrase. Capitals and spaces count. A file that \
    was changed does not open either.";
    pub preview = "What is in this backup";
    pub nothing_replaced = "Only what is not on this phone is added. Nothing here is changed or replaced.";
    pub differ_heading = "Two ways of one case";
    pub take = "Restore";
    pub partly = "Not all of it was restored";
    pub go_on_again = "Nothing is half: each case is here as it was or as in the file. Choose \
    the file again to go on with the rest.";
    pub choose_again = "Choose the file again";
    pub later = "Later";

    /// What a backup says of itself to whoever unpacks it.
    pub explains = "This is a backup of the app Freshet.\n\n\
    records.txt holds every case as it was recorded: one entry a line, each with its SHA-256 before \
    it, and\nwithin it that of the entry before. photos/ holds each photo under the SHA-256 of its \
    bytes.\ndamaged.txt, if there is one, holds lines of cases that were not whole on the phone.\n\n\
    The app takes the whole file in again: Backup, Restore. Any program that opens age files under \
    a\npassphrase, and then tar archives, opens it too.";
}

/// What a good passphrase is.
pub fn good() -> String {
    tr!(
        "Four words or more that do not belong together. {least} characters at least: whoever has \
         the file can guess for years.",
        least = LEAST
    )
}

/// A passphrase that is too short.
pub fn short() -> String {
    tr!("{least} characters at least.", least = LEAST)
}

/// Photos that are in it so far.
pub fn photos_in(done: usize, of: usize) -> String {
    tr!("Sealing: photo {number} of {of}. Keep the app open.", number = done + 1, of)
}

/// When the last backup was made.
pub fn state(backing: Backing) -> String {
    match backing {
        Backing::Never => tr!("No backup of this phone yet"),
        Backing::Made(age) => tr!("Last backup {age} ago", age = time::span(age)),
        Backing::Due(age) => tr!(
            "Last backup {age} ago, cases went on since: time for another",
            age = time::span(age)
        ),
    }
}

/// What is in a backup that was made: how much of what, in which unit.
pub fn made(made: &Made) -> Vec<(&'static str, String, Option<String>)> {
    let size = about::bytes(made.size());
    let (size, unit) = size.split_once(' ').unwrap_or((&size, ""));
    vec![
        (spoken("Cases"), made.cases.to_string(), None),
        (spoken("Entries"), made.entries.to_string(), None),
        (spoken("Photos"), made.photos.to_string(), None),
        (spoken("Size"), size.to_owned(), Some(unit.to_owned())),
    ]
}

/// What a backup that was made lacks.
pub fn lacks(made: &Made) -> Vec<String> {
    let mut lacks = Vec::new();
    if made.damaged > 0 {
        lacks.push(tr!(
            "{count} line of cases that are not whole on this phone lie in the file as text. They \
             are not restored."
                | "{count} lines of cases that are not whole on this phone lie in the file as text. \
                   They are not restored." % made.damaged,
            count = numbers::whole(made.damaged)
        ));
    }
    if made.lost > 0 {
        lacks.push(tr!(
            "{count} photo of the record could not be found on this phone, and so are not in it."
                | "{count} photos of the record could not be found on this phone, and so are not \
                   in it."
                    % made.lost,
            count = numbers::whole(made.lost)
        ));
    }
    if made.left_out > 0 {
        lacks.push(tr!(
            "{count} photo of the oldest cases are not in it: a file larger than {size} MB could \
             not be restored on a phone."
                | "{count} photos of the oldest cases are not in it: a file larger than {size} MB \
                   could not be restored on a phone."
                    % made.left_out,
            count = numbers::whole(made.left_out),
            size = LARGEST / 1_000_000
        ));
    }
    lacks
}

/// Why no backup was made.
pub fn not_made(why: &NotMade) -> String {
    match why {
        NotMade::Refused(why) => tr!(
            "No backup was made: not everything could be read, since {why}. Nothing is lost. Try \
             again.",
            why = app::refusal(why)
        ),
        NotMade::NoRandomness => {
            tr!("This browser gives no random numbers. Without them nothing can be sealed.")
        }
    }
}

/// The name of the file, by the day it was made.
pub fn file_name(at: Moment) -> String {
    const FRESHET: &str = "freshet-backup";
    const ENDING: &str = "age";
    let day = clock::date(at);
    format!("{FRESHET}-{:04}-{:02}-{:02}.{ENDING}", day.year(), day.month(), day.day())
}

/// What a backup would change, in numbers.
pub fn summary(merge: &Merge) -> Vec<(&'static str, usize)> {
    let cases = merge.journals().iter().filter(|(journal, _)| journal.case().is_case());
    let of = |wanted: fn(Standing) -> bool| {
        cases.clone().filter(|(_, standing)| wanted(*standing)).count()
    };
    // The first of each tells, even if it is none, that there is nothing new.
    let always = |label, number| Some((label, number));
    let any = |label, number| (number > 0).then_some((label, number));
    let all = [
        always(spoken("New cases"), of(|standing| standing == Standing::New)),
        any(spoken("Cases that go on"), of(|standing| matches!(standing, Standing::Newer(_)))),
        any(
            spoken("Cases already here"),
            of(|standing| matches!(standing, Standing::Same | Standing::Older(_))),
        ),
        any(spoken("Cases that differ"), of(|standing| matches!(standing, Standing::Forked(_)))),
        always(spoken("New photos"), merge.count(Print::New)),
        any(spoken("Photos already here"), merge.count(Print::Same)),
        any(spoken("Photos not wanted here"), merge.count(Print::Unwanted)),
    ];
    all.into_iter().flatten().collect()
}

/// Lines in a backup that are not restored.
pub fn damaged(lines: usize) -> String {
    tr!(
        "{count} line of cases that were not whole on that phone are in the file as text. They are \
         not restored."
            | "{count} lines of cases that were not whole on that phone are in the file as text. \
               They are not restored."
                % lines,
        count = numbers::whole(lines)
    )
}

/// How far the taking in is.
pub fn progress(progress: Progress) -> String {
    match progress {
        Progress::Journals(done, of) => {
            tr!("Restoring: {done} of {of}. Keep the app open.", done, of)
        }
        Progress::Placing => tr!("Putting everything in its place. Keep the app open."),
        Progress::Photos(done, of) => {
            tr!("Restoring: photo {number} of {of}. Keep the app open.", number = done + 1, of)
        }
    }
}

/// Cases that went on differently here and in the file.
pub fn differ(cases: usize) -> String {
    tr!(
        "{count} case went on differently here and in the file. Each stays as it is here, and the \
         file keeps its own: read both before you rely on either."
            | "{count} cases went on differently here and in the file. Each stays as it is here, \
               and the file keeps its own: read both before you rely on either."
                % cases,
        count = numbers::whole(cases)
    )
}

/// What was taken in.
pub fn taken(taken: &Taken) -> String {
    match (taken.journals, taken.photos) {
        (0, 0) => tr!("Nothing was taken in."),
        (0, photos) => tr!(
            "{count} photo taken in." | "{count} photos taken in." % photos,
            count = numbers::whole(photos)
        ),
        (journals, 0) => records::taken(journals),
        (journals, photos) => tr!(
            "{records} and {photos} taken in.",
            records = tr!(
                "{count} record" | "{count} records" % journals,
                count = numbers::whole(journals)
            ),
            photos =
                tr!("{count} photo" | "{count} photos" % photos, count = numbers::whole(photos))
        ),
    }
}

/// Why a part was not taken in.
pub fn broke(why: &Refusal) -> String {
    tr!("Then it stopped: {why}.", why = app::refusal(why))
}

/// Why a file is not taken.
pub fn unfit(why: &Unfit) -> String {
    match why {
        Unfit::File(FileError::TooLarge) => tr!(
            "It is larger than {size} MB, more than this app reads.",
            size = LARGEST / 1_000_000
        ),
        Unfit::File(FileError::Unreadable) => tr!("The browser could not read it."),
        Unfit::Record(why) => records::unread(why),
        Unfit::Backup(why) => unread(why),
        Unfit::Unknown(why) => {
            tr!("It cannot be compared with what is on this phone: {why}.", why = app::refusal(why))
        }
    }
}

fn unread(why: &BackupError) -> String {
    match why {
        BackupError::Sealed(why) => sealed(*why).to_owned(),
        BackupError::Archive(_) | BackupError::NoRecords => {
            tr!("The passphrase is right, but what is in it is no backup of this app.")
        }
        BackupError::Records(why) => records::unread(why),
        BackupError::Photo => tr!("A photo in it is not what was kept: the file was changed."),
    }
}

fn sealed(why: AgeError) -> &'static str {
    spoken(match why {
        AgeError::NotAge => "Its head is cut or damaged, so it cannot be opened.",
        AgeError::NotByPassphrase => {
            "It is sealed to a key and not under a passphrase: it is no backup of this app."
        }
        AgeError::TooDear => {
            "It was made to be harder to open than a phone can. This app makes no such files."
        }
        AgeError::NoRoom => {
            "Opening it takes more memory than this phone gives now. Close other apps and tabs, then \
             try again."
        }
        AgeError::Wrong => return wrong(),
        AgeError::Altered => {
            "The passphrase is right, but the file is cut or changed after its head. Save or send \
             it again."
        }
    })
}
