//! A fitted price history as lines for the job.
//!
//! Start at [`job_lines`].

use super::figures::MONTHS;
use crate::prices::history::MONTHS as WINTER_MONTHS;
use crate::prices::history::examined::Examined;

/// What the job then says of where its prices come from.
const SOURCE: &str = "fitted to a price history";

/// The fit as lines for the job of the prices of `fuel`; without the `summer` price its months are left open.
pub fn job_lines(e: &Examined, fuel: &str, summer: Option<f64>) -> String {
    let unit = &e.history.unit;
    let asked = match summer {
        Some(_) => "",
        None => "; the summer's prices are yours to fill in",
    };
    let mut text = format!("# From the price history{asked}.\n");
    text += &middles(e);
    text += &format!("[prices.{fuel}]\nsource = \"{SOURCE}\"\n");
    text += &format!("[prices.{fuel}.price_by_month]\n");
    for (month, deciles) in WINTER_MONTHS.iter().zip(e.months_ahead()) {
        let name = MONTHS.get(*month as usize - 1).copied().unwrap_or_default().to_lowercase();
        text += &format!("{name} = \"{:.2} {unit}\"\n", deciles[1]);
    }
    let summer = summer.map_or_else(|| "?".to_owned(), |price| format!("{price:.2}"));
    for name in ["apr", "may", "jun", "jul", "aug", "sep"] {
        text += &format!("{name} = \"{summer} {unit}\"\n");
    }
    let (low, high) = e.asked.half_life_years;
    text += &format!("\n[prices.{fuel}.moves]\nvolatility = {:.3}\n", e.fit.volatility.value);
    text += &format!("half_life_from = {low}\nhalf_life_to = {high}\n");
    if e.fit.spikes.is_none() {
        text += "# Monthly prices hide spikes: write spike_winters and of_winters as you have seen them.\n";
    }
    if let Some(found) = &e.fit.spikes {
        text += &format!("spike_winters = {}\nof_winters = {}\n", found.len(), e.fit.watched);
        text += &e.fit.spike_size().map_or(String::new(), |size| format!("spike_size = {size:.2}\n"));
        text += &format!("spike_half_life = {}\n", e.asked.spike_half_life_weeks);
    }
    text
}

/// What the prices are, which nobody would guess: a month's may lie far from the same month's last year.
fn middles(e: &Examined) -> String {
    let from = e.history.points.last().map(|last| format!(" on {}", last.date)).unwrap_or_default();
    format!(
        "# Each winter month's price is the middle of the winters that could follow: half are dearer, half cheaper.\n\
         # They start at the history's last price{from} and go from there towards where prices come to rest.\n"
    )
}
