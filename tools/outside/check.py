"""Reads the papers of the sample cases with readers that others wrote: each bundle by fhir.resources
(the R4B models: what R4 has of these resources and is not there is named below), each calendar by
icalendar, each case file by json and hashlib alone, each backup by pyrage and tarfile. Says what is wrong, and ends with 1 then."""

import hashlib
import io
import json
import sys
import tarfile
from pathlib import Path

import pyrage.passphrase
from fhir.resources.R4B.bundle import Bundle
from icalendar import Calendar


def references(part):
    """Every reference in a part of a bundle."""
    if isinstance(part, dict):
        for name, value in part.items():
            if name == "reference":
                yield value
            else:
                yield from references(value)
    elif isinstance(part, list):
        for value in part:
            yield from references(value)


def bundle(text):
    read = Bundle.model_validate_json(text)
    urls = [entry.fullUrl for entry in read.entry]
    assert len(urls) == len(set(urls)), "an address twice"
    for entry in read.entry:
        assert entry.fullUrl == f"urn:uuid:{entry.resource.id}", entry.fullUrl
    for reference in references(json.loads(text)):
        assert reference in urls, f"{reference} leads nowhere"
    # Read, written and read again says the same.
    again = Bundle.model_validate_json(read.model_dump_json())
    assert again == read, "not the same once written again"
    return len(urls)


def calendar(text):
    read = Calendar.from_ical(text)
    events = read.walk("VEVENT")
    assert events, "no event"
    assert all(not event.errors for event in events), "errors"
    assert all(event.walk("VALARM") for event in events), "no alarm"
    return len(events)


def case_file(text):
    read = json.loads(text)
    before = None
    for seq, line in enumerate(read["entries"]):
        digest, body = line.split(" ", 1)
        assert hashlib.sha256(body.encode()).hexdigest() == digest, f"entry {seq}: digest"
        body = json.loads(body)
        assert (body["seq"], body["case"], body["prev"]) == (seq, read["case"], before), f"entry {seq}"
        before = digest
    assert (read["count"], read["head"]) == (len(read["entries"]), before), "head"
    return read["count"]


def backup(sealed):
    archive = tarfile.open(fileobj=io.BytesIO(pyrage.passphrase.decrypt(sealed, "north of the river")))
    names = archive.getnames()
    lines = archive.extractfile("freshet/records.txt").read().decode().splitlines()
    for line in lines:
        digest, body = line.split(" ", 1)
        assert hashlib.sha256(body.encode()).hexdigest() == digest, "digest"
    photos = [name for name in names if name.startswith("freshet/photos/")]
    for name in photos:
        assert hashlib.sha256(archive.extractfile(name).read()).hexdigest() == Path(name).stem, name
    assert photos and "freshet/README.txt" in names, names
    return len(lines)


READERS = [
    ("*.fhir.json", bundle),
    ("*.case.json", case_file),
    ("*.ics", calendar),
    ("*.age", backup),
]


def main(folder):
    wrong = 0
    for pattern, read in READERS:
        files = sorted(Path(folder).glob(pattern))
        parts = 0
        for path in files:
            try:
                sealed = path.suffix == ".age"
                parts += read(path.read_bytes() if sealed else path.read_text(encoding="utf-8"))
            except Exception as error:  # whatever a reader stumbles over is told, and the next one read
                print(f"{path.name}: {error}")
                wrong += 1
        print(f"{pattern}: {len(files)} files, {parts} parts")
        if not files or not parts:
            print(f"{pattern}: nothing to read")
            wrong += 1
    return min(wrong, 1)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
