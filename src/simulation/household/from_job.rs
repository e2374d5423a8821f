//! The job's `[household]`, and what an option changes in it, into a design.
//!
//! Start at [`household`].

use super::design::{HotWater, HouseholdDesign, SteadyDraw};
use crate::equipment::{HouseholdKind, HouseholdMachine};
use crate::fuel::FuelId;
use crate::job::{Job, OptionSection, Typed};
use crate::load::{Mains, Zone};
use crate::problem::{Problem, Problems};
use crate::simulation::EndUse;
use crate::sources::{Assumptions, Source};
use crate::units::Quantity;

const HOURS_A_YEAR: f64 = 8760.0;
const DEFAULT_HOT_C: f64 = 440.0 / 9.0;

/// Builds the household of one option; `mains` is that of the place, which the job may replace.
///
/// # Errors
/// An option that names a machine for a use of which `[household]` does not say how much.
pub fn household(
    job: &Job,
    option: &OptionSection,
    machines: &[HouseholdMachine],
    zones: &[Zone],
    mains: Mains,
    assumptions: &mut Assumptions,
) -> Result<HouseholdDesign, Problems> {
    let mut build =
        Builder { job, option, machines, problems: Vec::new(), steady: Vec::new(), used: Vec::new() };
    if let Some(base) = &job.household.base_electricity {
        build.add(FuelId::ELECTRICITY, EndUse::Base, base.base() / HOURS_A_YEAR);
    }
    let hot_water = build.hot_water(zones, mains, assumptions);
    build.cooking();
    build.drying();
    if build.problems.is_empty() {
        Ok(HouseholdDesign { steady: build.steady, hot_water, machines: build.used })
    } else {
        Err(build.problems)
    }
}

struct Builder<'a> {
    job: &'a Job,
    option: &'a OptionSection,
    machines: &'a [HouseholdMachine],
    problems: Problems,
    steady: Vec<SteadyDraw>,
    used: Vec<HouseholdMachine>,
}

impl<'a> Builder<'a> {
    fn add(&mut self, fuel: FuelId, end_use: EndUse, kw: f64) {
        self.steady.push(SteadyDraw { fuel, end_use, kw });
    }

    /// The machine named by the option, else by the household, and how much of its use there is.
    fn used<T: Copy>(
        &mut self,
        key: &str,
        own: Option<&Typed<String>>,
        shared: Option<&Typed<String>>,
        amount: (&str, Option<&Typed<T>>),
    ) -> Option<(&'a HouseholdMachine, T)> {
        let named = own.or(shared)?;
        let machine = self.machines.iter().find(|m| m.name == named.value);
        let (amount_key, amount) = amount;
        let problem = |problem: Problem, help: String| problem.help(help);
        let key = format!("option.{}.{key}", self.option.name.value);
        match (machine, amount) {
            (Some(machine), Some(amount)) => {
                self.used.push(machine.clone());
                return Some((machine, amount.value));
            }
            (None, _) => {
                let what = format!("'{}' is not a machine for this", named.value);
                let found = self.job.problem(&named.span, key, what);
                self.problems.push(problem(found, "Name a machine of the kind that this key needs".into()));
            }
            (Some(_), None) => {
                let found = self.job.problem(&named.span, key, "the job does not say how much it is used");
                self.problems.push(problem(found, format!("Add {amount_key} to [household]")));
            }
        }
        None
    }

    fn hot_water(&mut self, zones: &[Zone], mains: Mains, assumptions: &mut Assumptions) -> Option<HotWater> {
        let (job, option) = (self.job, self.option);
        let household = &job.household;
        let (own, shared) = (option.household.hot_water.as_ref(), household.machines.hot_water.as_ref());
        let amount = ("hot_water_use", household.hot_water_use.as_ref());
        let (machine, water) = self.used("hot_water", own, shared, amount)?;
        let HouseholdKind::WaterHeater(heater) = &machine.kind else { return None };
        let given = household.hot_water_temperature.as_deref().map(|t| t.base());
        let key = "household.hot_water_temperature";
        let written = job.job.units.system().temperature_text(DEFAULT_HOT_C);
        let hot_c = assumptions.or_default(given, key, DEFAULT_HOT_C, written, || {
            Source::CommonPractice("the setting that guards against scalding".into())
        });
        let constant = household.mains_temperature.as_deref().map(|t| Mains::Constant(t.base()));
        let key = "household.mains_temperature";
        let mains = assumptions.or_default(constant, key, mains, "by the season", || {
            Source::FromMemory("Burch and Christensen 2007, from the outdoor temperatures of the year".into())
        });
        let zone = heater.cools_zone.as_ref().and_then(|name| zones.iter().position(|z| z.name == *name));
        let heater = heater.clone();
        Some(HotWater { fuel: machine.fuel, heater, zone, litres_a_day: water.base(), hot_c, mains })
    }

    fn cooking(&mut self) {
        let (job, option) = (self.job, self.option);
        let (own, shared) = (option.household.range.as_ref(), job.household.machines.range.as_ref());
        let used = self.used("range", own, shared, ("cooking", job.household.cooking.as_ref()));
        if let Some((machine, heat)) = used
            && let HouseholdKind::Range { efficiency } = machine.kind
        {
            self.add(machine.fuel, EndUse::Cooking, heat.base() / efficiency / HOURS_A_YEAR);
        }
    }

    fn drying(&mut self) {
        let (job, option) = (self.job, self.option);
        let (own, shared) = (option.household.dryer.as_ref(), job.household.machines.dryer.as_ref());
        let amount = ("dryer_loads_a_week", job.household.dryer_loads_a_week.as_ref());
        if let Some((machine, loads)) = self.used("dryer", own, shared, amount)
            && let HouseholdKind::Dryer { load_kwh, side_kwh } = machine.kind
        {
            let loads_an_hour = loads / (7.0 * 24.0);
            self.add(machine.fuel, EndUse::Drying, loads_an_hour * load_kwh);
            self.add(FuelId::ELECTRICITY, EndUse::Drying, loads_an_hour * side_kwh);
        }
    }
}
