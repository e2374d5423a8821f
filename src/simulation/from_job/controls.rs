//! How the heaters of a zone are controlled: turns, recovery, strips while defrosting.
//!
//! Start at [`Controls`].

use crate::equipment::{Machine, MachineKind};
use crate::fuel::FuelId;
use crate::job::{
    ChangeoverRule, DefrostAuxSection, HeatPumpSection, Job, MachineSection, OptionZoneSection, Sharing,
    Typed,
};
use crate::problem::Problems;
use crate::simulation::design::{Changeover, DefrostAux};
use crate::simulation::kernel::Worth;
use crate::simulation::tempering::Tempering;
use crate::sources::{Assumptions, Source};
use crate::units::Quantity;
use crate::units::UnitSystem;

const DEFROST_MINUTES: f64 = 6.0;
const DEFROST_EVERY_MINUTES: f64 = 90.0;

/// What the controls of one zone are built from, and what was wrong.
pub(super) struct Controls<'a> {
    pub(super) job: &'a Job,
    pub(super) section: &'a OptionZoneSection,
    pub(super) heaters: &'a [usize],
    pub(super) machines: &'a [Machine],
    pub(super) key: &'a dyn Fn(&str) -> String,
    pub(super) worth: &'a dyn Fn(FuelId) -> f64,
    pub(super) assumptions: &'a mut Assumptions,
    pub(super) problems: Problems,
}

impl<'a> Controls<'a> {
    fn heater(&self, place: usize) -> Option<&'a Machine> {
        self.heaters.get(place).and_then(|i| self.machines.get(*i))
    }

    fn refuse<T>(&mut self, typed: &Typed<T>, key: &str, what: &str, help: &str) {
        let problem = self.job.problem(&typed.span, (self.key)(key), what);
        self.problems.push(problem.help(help));
    }

    /// A heat pump followed by a furnace takes turns with it; everything else adds up.
    pub(super) fn changeover(&mut self) -> Option<Changeover> {
        let section = self.section;
        let pair = self.heater(0).zip(self.heater(1)).filter(|(lead, alternate)| {
            (lead.kind, alternate.kind) == (MachineKind::HeatPump, MachineKind::Furnace)
        });
        let Some((lead, alternate)) = pair else {
            let help = "Name the heat pump first and the furnace second, or take this key out";
            if let Some(lockout) = &section.compressor_lockout {
                let what = "a compressor lock-out needs a heat pump followed by a furnace";
                self.refuse(lockout, "compressor_lockout", what, help);
            } else if let Some(sharing) = &section.sharing {
                let what = "sharing needs a heat pump followed by a furnace";
                self.refuse(sharing, "sharing", what, help);
            } else if let Some(rule) = &section.changeover {
                let what = "a changeover needs a heat pump followed by a furnace";
                self.refuse(rule, "changeover", what, help);
            }
            return None;
        };
        let compressor_lockout_c = section.compressor_lockout.as_deref().map(|t| t.base());
        let by_cost = section.changeover.as_deref() == Some(&ChangeoverRule::Cost);
        if compressor_lockout_c.is_none() && !by_cost {
            let source = Source::CommonPractice("the heat pump runs whenever it can carry the hour".into());
            self.assumptions.note((self.key)("compressor_lockout"), "no lock-out", source);
        }
        if section.sharing.is_none() && !by_cost {
            let source = Source::CommonPractice("an hour it cannot carry is split between the two".into());
            self.assumptions.note((self.key)("sharing"), "in_time", source);
        }
        let on_cost = by_cost.then(|| Worth {
            lead: (self.worth)(lead.fuel),
            alternate: (self.worth)(alternate.fuel),
            side: (self.worth)(FuelId::ELECTRICITY),
        });
        let whole_hour = section.sharing.as_deref() == Some(&Sharing::WholeHour);
        Some(Changeover { compressor_lockout_c, whole_hour, on_cost })
    }

    /// Whether backup heat is held back in recovery; refused where there is none to hold back.
    pub(super) fn staged_recovery(&mut self) -> bool {
        let Some(typed) = self.section.staged_recovery.as_ref().filter(|typed| typed.value) else {
            return false;
        };
        let mut others = self.heaters.iter().skip(1).filter_map(|i| self.machines.get(*i));
        if !others.any(|m| m.kind == MachineKind::Resistance) {
            let what = "there is no resistance heat behind another machine that could be held back";
            self.refuse(
                typed,
                "staged_recovery",
                what,
                "Name strips after the first machine, or take this key out",
            );
        }
        true
    }

    /// Strips that temper the air while the zone's first heater defrosts.
    pub(super) fn defrost_aux(&mut self) -> Option<DefrostAux> {
        let is_by_air = |m: &&Machine| m.kind == MachineKind::HeatPump && m.ground.is_none();
        let first = self.heater(0).filter(is_by_air)?;
        let MachineSection::HeatPump(section) = &self.job.machine(&first.name)?.kind.value else {
            return None;
        };
        let kw = match section.defrost.aux.as_deref() {
            Some(DefrostAuxSection::None | DefrostAuxSection::Furnace) => return None,
            Some(DefrostAuxSection::Strips(power)) => power.base(),
            None => self.first_stage(first, section)?,
        };
        let (minutes, every) = defrost_minutes(section);
        let bank = self.bank(first).map(|(place, _)| place);
        Some(DefrostAux { kw, share_of_running: minutes / every, bank })
    }

    /// A furnace behind it in the ducts that does so: where the job says so, or says nothing and there are
    /// no strips for it.
    pub(super) fn tempering(&mut self, strips: Option<DefrostAux>) -> Option<Tempering> {
        let is_by_air = |m: &&Machine| m.kind == MachineKind::HeatPump && m.ground.is_none() && m.ducted;
        let first = self.heater(0).filter(is_by_air)?;
        let MachineSection::HeatPump(section) = &self.job.machine(&first.name)?.kind.value else {
            return None;
        };
        let typed = section.defrost.aux.as_deref();
        if strips.is_some() || !matches!(typed, None | Some(DefrostAuxSection::Furnace)) {
            return None;
        }
        let is_furnace = |m: &Machine| m.kind == MachineKind::Furnace && m.ducted;
        let place = (1..self.heaters.len()).find(|place| self.heater(*place).is_some_and(is_furnace))?;
        let burning = self.heater(place)?.heating.as_ref()?.hour_at(0.0);
        let (minutes, every) = defrost_minutes(section);
        if typed.is_none() {
            let why = format!(
                "in options with a furnace and no strips behind it in the ducts: the furnace, at its least output, tempers the \
                 air while it defrosts, {minutes} of each {every} minutes that it runs, {}",
                self.while_frosty()
            );
            let key = format!("equipment.{}.defrost_aux", first.name);
            self.assumptions.note(key, "furnace", Source::CommonPractice(why));
        }
        let share_of_running = minutes / every;
        Some(Tempering {
            place,
            share_of_running,
            heat_kw: burning.least * share_of_running,
            draw_kw: burning.power_least * share_of_running,
            side_kw: burning.side * share_of_running,
        })
    }

    /// When strips or furnace temper the air, in the job's units.
    fn while_frosty(&self) -> &'static str {
        match self.job.job.units.system() {
            UnitSystem::Us => "from 25 to 42 \u{b0}F outdoors when the dew point is within 9 \u{b0}F",
            UnitSystem::Si => "from \u{2212}4 to 6 \u{b0}C outdoors when the dew point is within 5 K",
        }
    }

    /// The strips in the ducts behind a ducted heat pump, with their place.
    fn bank(&self, first: &Machine) -> Option<(usize, &'a Machine)> {
        let mut others = (1..self.heaters.len()).filter_map(|place| Some((place, self.heater(place)?)));
        others.find(|(_, m)| m.kind == MachineKind::Resistance && m.ducted && first.ducted)
    }

    /// The first stage of the strips in the ducts behind a ducted heat pump.
    fn first_stage(&mut self, first: &Machine, section: &HeatPumpSection) -> Option<f64> {
        let kw = *self.bank(first)?.1.stages_kw.first()?;
        let (minutes, every) = defrost_minutes(section);
        let why = format!(
            "in options with strips behind it in the ducts: their first stage tempers the air while it defrosts, {minutes} \
             of each {every} minutes that it runs, {}",
            self.while_frosty()
        );
        let key = format!("equipment.{}.defrost_aux", first.name);
        self.assumptions.note(key, format!("{kw} kW"), Source::CommonPractice(why));
        Some(kw)
    }
}

/// Minutes of strips each time, and minutes of running between two times.
pub fn defrost_minutes(section: &HeatPumpSection) -> (f64, f64) {
    let minutes = section.defrost.minutes.as_deref().copied().unwrap_or(DEFROST_MINUTES);
    (minutes, section.defrost.every_minutes.as_deref().copied().unwrap_or(DEFROST_EVERY_MINUTES))
}
