//! The compressor lock-out in steps: what each setting costs in a year.
//!
//! Start at [`changeover_sweep`].

use super::rerun::{by_use, find, rerun, result, zone_key};
use crate::comparison::Warmth;
use crate::job::{Job, MachineSection, OptionZoneSection, Sharing};
use crate::ledger::SAME_COST;
use crate::problem::{Problem, Problems};
use crate::simulation::EndUse;
use crate::units::fahrenheit_to_celsius;
use crate::weather::Weather;

/// Settings tried, °F: thermostats are set in steps of five.
const FIRST_F: i32 = -15;
const LAST_F: i32 = 50;

/// Yearly cost by compressor lock-out.
#[derive(Debug, Clone, PartialEq)]
pub struct ChangeoverSweep {
    /// The option's name.
    pub option: String,
    /// The zone's name.
    pub zone: String,
    /// One row a setting, coldest first.
    pub rows: Vec<SweepRow>,
    /// The rows that cost least of those that are judged, equals all.
    pub best: Vec<usize>,
    /// Whether an hour that the heat pump cannot carry goes wholly to the furnace.
    pub whole_hour: bool,
}

/// One setting.
#[derive(Debug, Clone, PartialEq)]
pub struct SweepRow {
    /// Colder than this the compressor is locked out, °C.
    pub lockout_c: f64,
    /// What the option costs in a year, in the job's currency.
    pub yearly_cost: f64,
    /// What it costs more than the best setting.
    pub over_best: f64,
    /// Hours of the year in which a zone was not kept warm.
    pub hours_not_kept_warm: usize,
    /// Whether that is for want of heat, or for set-backs alone.
    pub warmth: Warmth,
    /// Whether it counts for the least cost: it keeps the house warm, or, where no setting does, leaves the fewest
    /// hours cold.
    pub judged: bool,
    /// What it costs by end use, in the order of postings.
    pub by_use: Vec<(EndUse, f64)>,
}

/// Runs the option with every lock-out from −15 to 50 °F in steps of 5 °F.
///
/// # Errors
/// An option or zone that does not exist or has no heat pump followed by a furnace.
pub fn changeover_sweep(
    job: &Job,
    weather: &Weather,
    option: &str,
    zone: &str,
) -> Result<ChangeoverSweep, Problems> {
    let (_, served) = find(job, option, zone).map_err(|problem| vec![problem])?;
    if !takes_turns(job, served) {
        let what = format!("'{option}' has no heat pump followed by a furnace in the zone '{zone}'");
        let problem = job.problem(&served.heating.span, zone_key(option, zone, "heating"), what);
        return Err(vec![problem.help("Name an option in which the two take turns")]);
    }
    let key = zone_key(option, zone, "compressor_lockout");
    let mut rows = Vec::new();
    for fahrenheit in (FIRST_F..=LAST_F).step_by(5) {
        let change = (key.clone(), format!("{fahrenheit} degF"));
        let comparison = rerun(job, &[change], weather)?;
        let (_, found) = result(&comparison, option)
            .ok_or_else(|| vec![Problem::new(format!("the option '{option}' went missing"))])?;
        rows.push(SweepRow {
            lockout_c: fahrenheit_to_celsius(f64::from(fahrenheit)),
            yearly_cost: found.yearly_cost(),
            over_best: 0.0,
            hours_not_kept_warm: found.hours_not_kept_warm(),
            warmth: found.warmth(),
            judged: false,
            by_use: by_use(found),
        });
    }
    let whole_hour = served.sharing.as_deref() == Some(&Sharing::WholeHour);
    Ok(ranked(option, zone, whole_hour, rows))
}

/// Whether a heat pump is followed by a furnace there.
pub fn takes_turns(job: &Job, served: &OptionZoneSection) -> bool {
    let kind = |place: usize| Some(&job.machine(&served.heating.value.get(place)?.value)?.kind.value);
    matches!((kind(0), kind(1)), (Some(MachineSection::HeatPump(_)), Some(MachineSection::Furnace(_))))
}

fn ranked(option: &str, zone: &str, whole_hour: bool, mut rows: Vec<SweepRow>) -> ChangeoverSweep {
    let any_warm = rows.iter().any(|row| !row.warmth.lacks_heat());
    let fewest = rows.iter().map(|row| row.hours_not_kept_warm).min();
    for row in &mut rows {
        row.judged = match any_warm {
            true => !row.warmth.lacks_heat(),
            false => Some(row.hours_not_kept_warm) == fewest,
        };
    }
    let costs = rows.iter().filter(|row| row.judged).map(|row| row.yearly_cost);
    if let Some(least) = costs.min_by(f64::total_cmp) {
        rows.iter_mut().for_each(|row| row.over_best = row.yearly_cost - least);
    }
    let is_best = |row: &SweepRow| row.judged && row.over_best < SAME_COST;
    let best = rows.iter().enumerate().filter(|(_, row)| is_best(row)).map(|(i, _)| i).collect();
    ChangeoverSweep { option: option.to_owned(), zone: zone.to_owned(), rows, best, whole_hour }
}
