//! What has been spent on each option, year by year, into the plain values that a chart draws.
//!
//! Start at [`spent`].

use super::charts::{SpentChart, SpentLine};
use crate::comparison::{Comparison, OptionLife, OptionResult, Warmth};

/// Spent by the end of each year; nothing where the job gives no cost of installing.
pub fn spent(c: &Comparison, about: &str) -> Option<SpentChart> {
    let lives = c.life_cycles.as_ref()?;
    let named = c.options.iter().zip(&lives.options).enumerate();
    let line = |(i, (option, life)): (usize, (&OptionResult, &Option<OptionLife>))| {
        let worth = lives.counted(life.as_ref()?);
        Some(SpentLine {
            name: match option.warmth() {
                Warmth::Kept | Warmth::SlowToRecover => option.design.name.clone(),
                Warmth::DryWithoutSetBacks => format!("{} (dry without its set-back)", option.design.name),
                Warmth::GoesCold => format!("{} (goes cold)", option.design.name),
            },
            option: i,
            spent: worth.life.spent_by.clone(),
            is_base: i == lives.economics.base,
            crossings: worth.crossings.clone(),
        })
    };
    Some(SpentChart {
        title: "What will have been spent by the end of each year".into(),
        subtitle: about.to_owned(),
        currency: c.currency.clone(),
        lines: named.filter_map(line).collect(),
        foot:
            "In money of today, not discounted: what it costs to install, bills, upkeep, loans, parts bought \
               anew. An estimate, not a quote; local codes and a licensed contractor decide."
                .into(),
    })
}
