//! What was studied beside a comparison, as tables of its report: at which prices two options cost the same,
//! what moves the difference between them, what drawn winters cost.
//!
//! Start at [`Studied`]; `gallery` draws its charts.

use super::model::Table;
use super::{draws, sway, tipping};
use crate::comparison::Comparison;
use crate::study::sway::Sway;
use crate::study::{PriceMap, Tipping, WinterDraws};

/// The studies, as far as there was anything to study.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Studied {
    /// At which prices two options cost the same.
    pub tipping: Option<Tipping>,
    /// The same over a field of two prices.
    pub map: Option<PriceMap>,
    /// What each input does to the difference between two options.
    pub sway: Option<Sway>,
    /// Winters drawn by chance, on the job's own terms.
    pub winters: Option<WinterDraws>,
}

impl Studied {
    /// Their tables.
    pub fn tables(&self, c: &Comparison) -> Vec<Table> {
        let mut tables = Vec::new();
        tables.extend(self.tipping.as_ref().map(|found| tipping::table(c, found)));
        tables.extend(self.map.as_ref().map(|map| tipping::map_table(c, map)));
        tables.extend(self.sway.as_ref().map(|found| sway::table(c, found)));
        tables.extend(self.winters.as_ref().map(|drawn| draws::own_terms(c, drawn)));
        tables
    }
}
