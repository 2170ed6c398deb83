//! Writes the papers of the sample cases into a folder, for validators that are not Rust:
//! `cargo run --no-default-features --example papers -- FOLDER`.

use freshet::measure::Span;
use freshet::record::calendar::{Alarm, Calendar, Due};
use freshet::record::{backup, fhir, file, samples};
use freshet::seal::Random;
use std::collections::BTreeSet;
use std::io::Read;
use std::path::PathBuf;
use std::{env, fs, io};

/// What opens the backups, here and in `tools/outside/check.py`.
const PASSPHRASE: &str = "north of the river";

/// Random bytes of this machine.
struct System(fs::File);

impl Random for System {
    fn fill(&mut self, bytes: &mut [u8]) {
        self.0.read_exact(bytes).expect("random bytes");
    }
}

fn main() -> io::Result<()> {
    let folder = env::args_os().nth(1).map(PathBuf::from);
    let folder = folder.ok_or_else(|| io::Error::other("which folder?"))?;
    fs::create_dir_all(&folder)?;
    for (name, told) in samples::all() {
        let (case, made) = (told.case(), told.written());
        fs::write(
            folder.join(format!("{name}.fhir.json")),
            fhir::write(&case, &told.journal, made),
        )?;
        fs::write(folder.join(format!("{name}.case.json")), file::write(&told.journal, made))?;
        let dues = [Due {
            number: 1,
            at: made.after(Span::hours(1)),
            summary: "Look at the skin",
            notes: "Refill, colour and pain; then round 2",
        }];
        let calendar = Calendar {
            product: "-//Freshet//Hours//EN",
            case: case.id,
            made,
            lasts: Span::ZERO,
            dues: &dues,
            alarms: &[Alarm::at_once()],
        };
        let calendar = calendar.write().map_err(|_| io::Error::other("a moment out of range"))?;
        fs::write(folder.join(format!("{name}.ics")), calendar)?;
        let photo = name.as_bytes().to_vec();
        let lines = [(case.id, told.journal.lines())];
        let sorted = backup::sorted(lines, &BTreeSet::new());
        let mut random = System(fs::File::open("/dev/urandom")?);
        let mut making =
            backup::Making::begin(PASSPHRASE, &sorted, "What this is.", made, &mut random);
        making.photo(&photo);
        fs::write(folder.join(format!("{name}.age")), making.end().concat())?;
    }
    Ok(())
}
