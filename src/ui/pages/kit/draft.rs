//! What is typed of a lot before it is in the kit.

use crate::care::allergy::Species;
use crate::kit::gs1::{Gtin, Pack};
use crate::kit::{Article, Holding, Kind, Lot, Place, Stock};
use crate::measure::{Misread, Typed, Units, Volume};
use crate::protocol::counting::MOST_OF_A_LOT;
use crate::protocol::diluent::Diluent;
use crate::protocol::strengths::VIALS;
use crate::ui::printed::{as_typed, expiry};
use crate::ui::words::{kit as said, typed};

/// What is typed so far.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Draft {
    /// What it is for.
    pub kind: Kind,
    /// Units of the vial; none where another is typed.
    pub units: Option<Units>,
    /// The other one, as typed.
    pub other_units: String,
    /// Where the enzyme comes from.
    pub species: Species,
    /// Which diluent.
    pub diluent: Diluent,
    /// How much of it is in one container, as typed.
    pub holds: String,
    /// The syringe; none where another is typed.
    pub syringe: Option<Volume>,
    /// The other one, as typed.
    pub other_syringe: String,
    /// As typed.
    pub batch: String,
    /// As typed.
    pub expiry: String,
    /// The trade item's number, if the code was read.
    pub gtin: Option<Gtin>,
    /// Where it lies.
    pub place: Place,
    /// As typed.
    pub count: String,
}

impl Draft {
    /// Nothing typed, in a clinic that uses such vials and syringes.
    pub fn new(vial: Units, syringe: Volume, place: Place) -> Self {
        let usual = VIALS.iter().any(|(units, _)| *units == vial);
        Self {
            kind: Kind::Hyaluronidase,
            units: usual.then_some(vial),
            other_units: if usual { String::new() } else { vial.to_string() },
            species: Species::default(),
            diluent: Diluent::default(),
            holds: String::new(),
            syringe: Some(syringe),
            other_syringe: String::new(),
            batch: String::new(),
            expiry: String::new(),
            gtin: None,
            place,
            count: String::new(),
        }
    }

    /// Takes an article over, as of a lot received before.
    pub fn take(&mut self, article: Article) {
        self.kind = article.kind();
        match article {
            Article::Hyaluronidase { units, species } => {
                let usual = VIALS.iter().any(|(other, _)| *other == units);
                self.units = usual.then_some(units);
                self.other_units = if usual { String::new() } else { units.to_string() };
                self.species = species;
            }
            Article::Diluent { diluent, holds } => {
                self.diluent = diluent;
                self.holds = holds.to_string();
            }
            Article::Syringe { holds } => self.syringe = Some(holds),
            Article::Needle | Article::Adrenaline | Article::Aspirin => {}
        }
    }

    /// Takes over what the code on a pack says, and the article that is known by its number. What the
    /// code does not say stays as it was typed.
    pub fn fill(&mut self, pack: &Pack, article: Option<Article>) {
        if let Some(article) = article {
            self.take(article);
        }
        if let Some(batch) = &pack.batch {
            self.batch.clone_from(batch);
        }
        if let Some(expiry) = pack.expiry {
            self.expiry = as_typed(expiry);
        }
        self.gtin.clone_from(&pack.gtin);
    }

    /// What it is.
    ///
    /// # Errors
    /// What is still to be typed.
    pub fn article(&self) -> Result<Article, String> {
        Ok(match self.kind {
            Kind::Hyaluronidase => {
                let units = match self.units {
                    Some(units) => Some(units),
                    None => typed::field(&self.other_units)?,
                };
                let units = units.filter(|units| *units > Units::ZERO);
                let units = units.ok_or_else(|| said::units_wanted().to_owned())?;
                Article::Hyaluronidase { units, species: self.species }
            }
            Kind::Diluent => {
                Article::Diluent { diluent: self.diluent, holds: volume(&self.holds)? }
            }
            Kind::Syringe => Article::Syringe {
                holds: self.syringe.map_or_else(|| volume(&self.other_syringe), Ok)?,
            },
            Kind::Needle => Article::Needle,
            Kind::Adrenaline => Article::Adrenaline,
            Kind::Aspirin => Article::Aspirin,
        })
    }

    /// The lot.
    ///
    /// # Errors
    /// What is still to be typed or put right.
    pub fn lot(&self) -> Result<Lot, String> {
        let article = self.article()?;
        let expiry = expiry(&self.expiry)?;
        let count = count(&self.count)?;
        let batch = self.batch.trim().to_owned();
        Ok(Lot { article, batch, expiry, gtin: self.gtin.clone(), place: self.place, count })
    }

    /// A lot of the kit that is the same by what is printed: adding another would count it twice for
    /// who scans a pack again.
    pub fn same<'a>(&self, stock: &'a Stock) -> Option<&'a Holding> {
        let article = self.article().ok()?;
        let expiry = expiry(&self.expiry).ok()?;
        let batch = self.batch.trim();
        stock.holdings().iter().rev().find(|holding| {
            let lot = &holding.lot;
            lot.article == article && lot.batch == batch && lot.expiry == expiry
        })
    }
}

fn volume(text: &str) -> Result<Volume, String> {
    let volume = typed::field::<Volume>(text)?.filter(|volume| *volume > Volume::ZERO);
    volume.ok_or_else(|| said::holds_wanted().to_owned())
}

/// How many, one at least.
///
/// # Errors
/// What is wrong with it, in words.
pub fn count(text: &str) -> Result<u32, String> {
    let count = typed::field::<u32>(text)?.ok_or_else(|| said::how_many_wanted().to_owned())?;
    if count > MOST_OF_A_LOT { Err(said::too_many(MOST_OF_A_LOT)) } else { Ok(count) }
}

/// How many, which may be none.
///
/// # Errors
/// What is wrong with it, in words.
pub fn count_or_none(text: &str) -> Result<u32, String> {
    match u32::read(text) {
        Err(Misread::Zero) => Ok(0),
        _ => count(text),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::{Act, Done, LotId};
    use crate::measure::{Date, Hash, Moment};

    fn draft() -> Draft {
        Draft::new(Units::whole(1_500), Volume::ml(1), Place::Clinic)
    }

    #[test]
    fn a_lot_needs_its_article_and_how_many() {
        let mut draft = draft();
        assert_eq!(draft.lot().unwrap_err(), said::how_many_wanted());
        draft.count = "0".into();
        assert!(draft.lot().is_err());
        assert_eq!(count_or_none("0"), Ok(0));
        assert_eq!(count_or_none(" 7 "), Ok(7));
        assert!(count_or_none("").is_err() && count_or_none("x").is_err());
        assert_eq!(count("999"), Ok(MOST_OF_A_LOT));
        assert_eq!(count("1000").unwrap_err(), said::too_many(MOST_OF_A_LOT));
        draft.count = "10".into();
        draft.batch = " DEMO-1 ".into();
        draft.expiry = "2027-05".into();
        let lot = draft.lot().unwrap();
        assert_eq!((lot.batch.as_str(), lot.count), ("DEMO-1", 10));
        assert_eq!(lot.expiry, Date::new(2027, 5, 31));
        draft.units = None;
        assert_eq!(draft.lot().unwrap_err(), said::units_wanted());
        draft.kind = Kind::Diluent;
        assert_eq!(draft.lot().unwrap_err(), said::holds_wanted());
        draft.holds = "10 mL".into();
        let holds = Volume::ml(10);
        assert_eq!(draft.article(), Ok(Article::Diluent { diluent: Diluent::Saline, holds }));
    }

    #[test]
    fn what_is_taken_over_reads_back_the_same() {
        let mut draft = draft();
        for article in [
            Article::Hyaluronidase { units: Units::whole(300), species: Species::Ovine },
            Article::Hyaluronidase { units: Units::whole(450), species: Species::Bovine },
            Article::Diluent { diluent: Diluent::Water, holds: Volume::ul(2_500) },
            Article::Syringe { holds: Volume::ul(300) },
            Article::Needle,
        ] {
            draft.take(article);
            assert_eq!(draft.article(), Ok(article));
        }
    }

    #[test]
    fn the_same_lot_is_found_by_what_is_printed() {
        let mut draft = draft();
        draft.count = "3".into();
        draft.batch = "DEMO-1".into();
        let act = Act::Received(Box::new(draft.lot().unwrap()));
        let id = LotId(Hash::of(b"first"));
        let stock = Stock::of([Done { id, at: Moment::from_millis(0), act: &act }], &[]);
        draft.place = Place::Bag;
        assert_eq!(draft.same(&stock).map(|holding| holding.id), Some(id));
        draft.expiry = "2027-05".into();
        assert_eq!(draft.same(&stock), None);
        draft.expiry = "2027-1".into();
        draft.batch = "DEMO-2".into();
        assert_eq!(draft.same(&stock), None);
    }
}
