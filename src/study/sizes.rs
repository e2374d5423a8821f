//! Candidate machines in one place of an option, side by side.
//!
//! Start at [`candidate_sizes`].

use super::rerun::{by_use, find, rerun, result, zone_key};
use crate::comparison::Warmth;
use crate::job::edit::text_literal;
use crate::job::{Job, MachineSection, MapSection};
use crate::problem::{Problem, Problems, choices};
use crate::simulation::EndUse;
use crate::weather::Weather;

/// What each candidate does as the first machine of a zone.
#[derive(Debug, Clone, PartialEq)]
pub struct CandidateSizes {
    /// The option's name.
    pub option: String,
    /// The zone's name.
    pub zone: String,
    /// One row a candidate, in the order asked for.
    pub rows: Vec<SizeRow>,
}

/// One candidate.
#[derive(Debug, Clone, PartialEq)]
pub struct SizeRow {
    /// The machine's name.
    pub machine: String,
    /// What it can give in the room at the design temperature over what the zone needs there.
    pub share_of_design: f64,
    /// Hours of the year in which it cycled below its least output.
    pub cycling_hours: usize,
    /// Air that it moves through the ducts at full output, m³/s; nothing without ducts.
    pub airflow_m3_s: Option<f64>,
    /// Heat from backup in the zone, kWh.
    pub backup_heat_kwh: f64,
    /// Hours of the year in which the zone was not kept warm.
    pub hours_not_kept_warm: usize,
    /// Whether the option lacks heat, or is only slow to recover from its set-backs.
    pub warmth: Warmth,
    /// What the whole option costs in a year, in the job's currency.
    pub yearly_cost: f64,
    /// The same at the ends of what its nameplate leaves open, where one does.
    pub yearly_cost_range: Option<(f64, f64)>,
    /// The same by end use, in the order of postings.
    pub by_use: Vec<(EndUse, f64)>,
}

/// Runs the option with each machine of `candidates` in the place of the zone's first heater.
///
/// Where the zone's cooler is the replaced machine, the candidate takes that place too, if it cools.
///
/// # Errors
/// Names that do not exist, and candidates that cannot heat.
pub fn candidate_sizes(
    job: &Job,
    weather: &Weather,
    option: &str,
    zone: &str,
    candidates: &[String],
) -> Result<CandidateSizes, Problems> {
    find(job, option, zone).map_err(|problem| vec![problem])?;
    let rows: Result<Vec<SizeRow>, Problems> =
        candidates.iter().map(|machine| row(job, weather, option, zone, machine)).collect();
    Ok(CandidateSizes { option: option.to_owned(), zone: zone.to_owned(), rows: rows? })
}

fn row(job: &Job, weather: &Weather, option: &str, zone: &str, machine: &str) -> Result<SizeRow, Problems> {
    let comparison = rerun(job, &changes(job, option, zone, machine)?, weather);
    let comparison = comparison
        .map_err(|found| found.into_iter().map(|p| of_candidate(p, machine)).collect::<Vec<_>>())?;
    let missing = || vec![Problem::new(format!("the option '{option}' went missing"))];
    let (_, found) = result(&comparison, option).ok_or_else(missing)?;
    let place = comparison.zones.iter().position(|z| z.name == zone).ok_or_else(missing)?;
    let of_zone = found.zones.get(place).ok_or_else(missing)?;
    let need = of_zone.at_design.need_kw;
    let air = found.cold_night.zones.get(place).and_then(|z| z.supply_air.first());
    let is_own = |place: usize| comparison.machines.get(place).is_some_and(|m| m.name == machine);
    Ok(SizeRow {
        machine: machine.to_owned(),
        share_of_design: if need > 0.0 { of_zone.at_design.first_capacity_kw / need } else { f64::INFINITY },
        cycling_hours: of_zone.sums.first_cycling_hours,
        airflow_m3_s: air.filter(|air| is_own(air.machine)).map(|air| air.airflow_m3_s),
        backup_heat_kwh: of_zone.sums.backup_heat_kwh,
        hours_not_kept_warm: of_zone.sums.comfort.hours_not_kept_warm,
        warmth: found.warmth(),
        yearly_cost: found.yearly_cost(),
        yearly_cost_range: found.yearly_cost_range(),
        by_use: by_use(found),
    })
}

/// A problem of the changed job: its lines are not those of the file, which has nothing wrong with it.
fn of_candidate(problem: Problem, machine: &str) -> Problem {
    let what = format!("with '{machine}' as the first machine: {}", problem.what);
    Problem { what, key: None, line: None, span: None, excerpt: None, ..problem }
}

fn changes(job: &Job, option: &str, zone: &str, machine: &str) -> Result<Vec<(String, String)>, Problems> {
    let (_, served) = find(job, option, zone).map_err(|problem| vec![problem])?;
    let candidate = job.machine(machine).ok_or_else(|| {
        let names = choices(job.equipment.iter().map(|m| m.name.value.as_str()));
        let problem = Problem::new(format!("there is no machine '{machine}'")).in_file(&job.file);
        vec![problem.allowed(names)]
    })?;
    let others = served.heating.value.iter().skip(1).map(|name| name.value.as_str());
    let list: Vec<String> = std::iter::once(machine).chain(others).map(text_literal).collect();
    let mut changes = vec![(zone_key(option, zone, "heating"), format!("[{}]", list.join(", ")))];
    let first = served.heating.value.first().map(|name| name.value.as_str());
    let replaces_cooler = served.cooling.as_ref().is_some_and(|c| Some(c.value.as_str()) == first);
    if replaces_cooler && cools(&candidate.kind.value) {
        changes.push((zone_key(option, zone, "cooling"), text_literal(machine)));
    }
    Ok(changes)
}

fn cools(machine: &MachineSection) -> bool {
    match machine {
        MachineSection::HeatPump(pump) => {
            let by_plate = matches!(&pump.heating, MapSection::Nameplate(plate) if plate.cooling.is_some());
            by_plate || pump.cooling.is_some()
        }
        MachineSection::AirConditioner(_) => true,
        _ => false,
    }
}
