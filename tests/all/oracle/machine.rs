//! The oracle's machines: outdoor temperature and wanted output into heat and draw, in plain `f64`.
//!
//! Temperatures °C, powers kW. Imports nothing from the crate. Start at [`HeatPump::at_each_hour`]
//! and [`Machine::run`].

/// A capacity and the power it takes, both kW.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Level {
    pub(crate) capacity: f64,
    pub(crate) power: f64,
}

/// One outdoor temperature of a map.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Row {
    pub(crate) outdoor: f64,
    pub(crate) least: Option<Level>,
    pub(crate) rated: Option<Level>,
    pub(crate) greatest: Level,
}

/// A heat pump, heating; or, cooling, an air conditioner by the same rules of load.
#[derive(Debug, Clone)]
pub(crate) struct HeatPump {
    /// Rows from cold to warm.
    pub(crate) rows: Vec<Row>,
    /// True where the rows do not pay for frost yet.
    pub(crate) steady_basis: bool,
    pub(crate) cut_out: Option<f64>,
    /// `None`: the cut-out.
    pub(crate) cut_on: Option<f64>,
    /// C_D.
    pub(crate) cycling_loss: f64,
    /// Indoor fan that the powers leave out, kW; 0 where they hold it.
    pub(crate) fan: f64,
    /// kW in hours without output.
    pub(crate) standby: f64,
}

/// A heat pump at one hour, the fan not yet in it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct AtHour {
    pub(crate) on: bool,
    pub(crate) least: Level,
    pub(crate) rated: Option<Level>,
    pub(crate) greatest: Level,
}

const F17: f64 = (17.0 - 32.0) / 1.8;
const F35: f64 = (35.0 - 32.0) / 1.8;
const F47: f64 = (47.0 - 32.0) / 1.8;

fn line(x: f64, x0: f64, y0: f64, x1: f64, y1: f64) -> f64 {
    y0 + (y1 - y0) * (x - x0) / (x1 - x0)
}

fn between(t: f64, a: f64, la: Level, b: f64, lb: Level) -> Level {
    Level { capacity: line(t, a, la.capacity, b, lb.capacity), power: line(t, a, la.power, b, lb.power) }
}

/// A row at +2 °C stands for the one at 35 °F.
fn counts_as_35f(outdoor: f64) -> bool {
    (outdoor - F35).abs() < 1e-6 || (outdoor - 2.0).abs() < 1e-6
}

/// What frost leaves: the share of capacity and of power.
fn frost(outdoor: f64) -> (f64, f64) {
    if counts_as_35f(outdoor) {
        (0.90, 0.985)
    } else if outdoor <= F17 || outdoor >= F47 {
        (1.0, 1.0)
    } else if outdoor < F35 {
        (line(outdoor, F17, 1.0, F35, 0.90), line(outdoor, F17, 1.0, F35, 0.985))
    } else {
        (line(outdoor, F35, 0.90, F47, 1.0), line(outdoor, F35, 0.985, F47, 1.0))
    }
}

fn row_between(t: f64, a: &Row, b: &Row) -> Row {
    let least_a = a.least.unwrap_or(a.greatest);
    let least_b = b.least.unwrap_or(b.greatest);
    let rated = match (a.rated, b.rated) {
        (Some(ra), Some(rb)) => Some(between(t, a.outdoor, ra, b.outdoor, rb)),
        _ => None,
    };
    Row {
        outdoor: t,
        least: Some(between(t, a.outdoor, least_a, b.outdoor, least_b)),
        rated,
        greatest: between(t, a.outdoor, a.greatest, b.outdoor, b.greatest),
    }
}

impl HeatPump {
    /// The rows with frost paid for.
    fn working_rows(&self) -> Vec<Row> {
        let mut rows = self.rows.clone();
        if !self.steady_basis {
            return rows;
        }
        if !rows.iter().any(|row| counts_as_35f(row.outdoor)) {
            for i in 1..rows.len() {
                if rows[i - 1].outdoor < F35 && F35 < rows[i].outdoor {
                    let inserted = row_between(F35, &rows[i - 1], &rows[i]);
                    rows.insert(i, inserted);
                    break;
                }
            }
        }
        for row in &mut rows {
            let (capacity, power) = frost(row.outdoor);
            let pay = |l: Level| Level { capacity: l.capacity * capacity, power: l.power * power };
            row.least = row.least.map(pay);
            row.rated = row.rated.map(pay);
            row.greatest = pay(row.greatest);
        }
        rows
    }

    /// The machine at each hour in order, switched off and on by cut-out and cut-on.
    pub(crate) fn at_each_hour(&self, outdoor: &[f64]) -> Vec<AtHour> {
        let rows = self.working_rows();
        let coldest = rows[0].outdoor;
        let mut running = true;
        let mut hours = Vec::new();
        for &t in outdoor {
            if let Some(cut_out) = self.cut_out {
                let cut_on = self.cut_on.unwrap_or(cut_out);
                if t <= cut_out {
                    running = false;
                } else if t > cut_on {
                    running = true;
                }
            }
            let beyond_map = coldest - t > 5.0 + 1e-9;
            let held_to_cut_out = self.cut_out.is_some_and(|cut_out| cut_out < coldest - 5.0);
            let line_at = |t: f64| self.colder_than_typed(t).unwrap_or_else(|| look_up(&rows, t)).uncrossed();
            let mut hour = line_at(t);
            if t < coldest - 5.0 {
                hour = hour.no_better_than(&line_at(coldest - 5.0), self.fan);
            }
            hour.on = running && (!beyond_map || held_to_cut_out) && hour.greatest.capacity > 0.0;
            hours.push(hour);
        }
        hours
    }

    /// Colder than its rows a steady map goes on as the rows were typed, whatever frost takes at 35 °F; what
    /// frost takes of the coldest row (nothing at 17 °F and below) it goes on to take.
    fn colder_than_typed(&self, t: f64) -> Option<AtHour> {
        if !self.steady_basis || self.rows.len() < 2 || t >= self.rows[0].outdoor {
            return None;
        }
        let typed = look_up(&self.rows, t);
        let (capacity, power) = frost(self.rows[0].outdoor);
        let pay = |l: Level| Level { capacity: l.capacity * capacity, power: l.power * power };
        Some(AtHour {
            on: true,
            least: pay(typed.least),
            rated: typed.rated.map(pay),
            greatest: pay(typed.greatest),
        })
    }

    /// The cooling machine at each hour: outside its rows the nearest row holds, and it is never off.
    pub(crate) fn cooling_at_each_hour(&self, outdoor: &[f64]) -> Vec<AtHour> {
        let coldest = self.rows[0].outdoor;
        outdoor.iter().map(|&t| look_up(&self.rows, t.max(coldest))).collect()
    }
}

/// The levels at `t`: linear between rows and colder than them, the last row where it is warmer.
fn look_up(rows: &[Row], t: f64) -> AtHour {
    let last = rows.len() - 1;
    let row = if last == 0 || t >= rows[last].outdoor {
        rows[last]
    } else {
        let mut i = 1;
        while i < last && t > rows[i].outdoor {
            i += 1;
        }
        row_between(t, &rows[i - 1], &rows[i])
    };
    // A rated level counts only where every row has one.
    let rated = if rows.iter().all(|r| r.rated.is_some()) { row.rated } else { None };
    AtHour { on: true, least: row.least.unwrap_or(row.greatest), rated, greatest: row.greatest }
}

impl Level {
    /// No more capacity than `other`, nor a better COP, the fan's warmth in both capacities.
    fn no_better_than(self, other: Level, fan: f64) -> Level {
        let capacity = self.capacity.min(other.capacity);
        let each_kw = other.power / (other.capacity + fan).max(1e-300);
        Level { capacity, power: self.power.max((capacity + fan) * each_kw) }
    }
}

impl AtHour {
    /// Levels below nothing are nothing, and a lower one gives no more than a higher.
    fn uncrossed(self) -> AtHour {
        let kept = |l: Level| Level { capacity: l.capacity.max(0.0), power: l.power.max(0.0) };
        let at_most = |l: Level, most: f64| Level { capacity: l.capacity.min(most), ..l };
        let greatest = kept(self.greatest);
        let rated = self.rated.map(|rated| at_most(kept(rated), greatest.capacity));
        let most = rated.unwrap_or(greatest).capacity;
        AtHour { on: self.on, least: at_most(kept(self.least), most), rated, greatest }
    }

    /// Each level no better than in the other hour.
    fn no_better_than(self, other: &AtHour, fan: f64) -> AtHour {
        AtHour {
            on: self.on,
            least: self.least.no_better_than(other.least, fan),
            rated: self.rated.zip(other.rated).map(|(mine, other)| mine.no_better_than(other, fan)),
            greatest: self.greatest.no_better_than(other.greatest, fan),
        }
    }

    /// Full output with the fan's warmth, kW; 0 when off.
    pub(crate) fn full(&self, fan: f64) -> f64 {
        if self.on { self.greatest.capacity + fan } else { 0.0 }
    }

    /// Power at an output of `load` kW (at most full), the fan's share of the hour in both.
    /// A line that goes on below 0 draws nothing there.
    pub(crate) fn power(&self, load: f64, cycling_loss: f64, fan: f64) -> f64 {
        if !self.on || load <= 0.0 {
            return 0.0;
        }
        let least = self.least.capacity + fan;
        if load < least {
            let share = load / least;
            let part_load_factor = 1.0 - cycling_loss * (1.0 - share);
            return (share * self.least.power / part_load_factor).max(0.0) + share * fan;
        }
        let capacity = load - fan;
        let mut points = vec![self.least];
        points.extend(self.rated);
        points.push(self.greatest);
        for pair in points.windows(2) {
            if capacity <= pair[1].capacity && pair[0].capacity < pair[1].capacity {
                let power = line(capacity, pair[0].capacity, pair[0].power, pair[1].capacity, pair[1].power);
                return power.max(0.0) + fan;
            }
        }
        self.greatest.power.max(0.0) + fan
    }
}

/// A burner with a blower.
#[derive(Debug, Clone)]
pub(crate) struct Furnace {
    /// Fuel input, kW by the higher heating value.
    pub(crate) input: f64,
    pub(crate) afue: f64,
    /// What altitude leaves of input and output, 0 to 1.
    pub(crate) altitude_factor: f64,
    /// kW while it runs.
    pub(crate) blower: f64,
    /// Which of the run's stores feeds it; `None`: never short.
    pub(crate) store: Option<usize>,
    /// kW that its pilot burns in every hour; 0 where it has none.
    pub(crate) pilot: f64,
    /// kWh of fuel that somebody lays in at each midnight; infinite where nobody must.
    pub(crate) daily: f64,
}

impl Furnace {
    pub(crate) fn burning(&self) -> f64 {
        self.input * self.altitude_factor
    }

    pub(crate) fn full(&self) -> f64 {
        self.burning() * self.afue + self.blower
    }

    /// Running for `share` of the hour with `heat` kW to the room while it does; its pilot burns whatever
    /// is wanted, and where there is not fuel for that all of it shrinks by one share.
    fn ran(&self, share: f64, heat: f64, fuel: f64) -> Ran {
        let ample = (share * self.burning()).max(self.pilot);
        let left = if ample > fuel { fuel / ample } else { 1.0 };
        let share = share * left;
        Ran { heat: share * heat, draw: ample * left, side: share * self.blower, share }
    }
}

/// Whatever heats a zone.
#[derive(Debug, Clone)]
pub(crate) enum Machine {
    HeatPump(HeatPump),
    Furnace(Furnace),
    /// Capacity kW, all of it drawn.
    Resistance(f64),
}

/// A machine in its place: with the ducts it blows into.
#[derive(Debug, Clone)]
pub(crate) struct Placed {
    pub(crate) machine: Machine,
    /// 1 where there are no ducts.
    pub(crate) duct_efficiency: f64,
    /// Ducts that lose more of a low output; heat goes by this instead, where it is given.
    pub(crate) form: Option<DuctForm>,
    /// Which of the run's outdoor units it hangs on.
    pub(crate) unit: Option<usize>,
}

/// What bounds a machine in one hour, and what helps it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Hour {
    /// kW that it may burn.
    pub(crate) fuel: f64,
    /// kW of heat that it may give by itself.
    pub(crate) heat: f64,
    /// kW lost in its ducts while air moves.
    pub(crate) lost: f64,
    /// kW by which others warm its air, on the mean of the time that it runs.
    pub(crate) tempered: f64,
}

impl Hour {
    pub(crate) const FREE: Self = Self { fuel: f64::INFINITY, heat: f64::INFINITY, lost: 0.0, tempered: 0.0 };
}

/// While air moves, `kept · output − lost` reaches the room.
#[derive(Debug, Clone, Copy)]
pub(crate) struct DuctForm {
    pub(crate) kept: f64,
    /// kW for each kelvin that the room is warmer than it is around the ducts.
    pub(crate) lost_each_kelvin: f64,
    pub(crate) room: f64,
    /// `None`: outdoors.
    pub(crate) around: Option<f64>,
}

/// A machine does not run at an output of which less than this arrives; if even its greatest is such,
/// this much of it is taken to arrive.
const LEAST_ARRIVING: f64 = 0.3;

impl DuctForm {
    /// Lost while air moves, kW.
    pub(crate) fn lost(&self, outdoor: f64) -> f64 {
        (self.lost_each_kelvin * (self.room - self.around.unwrap_or(outdoor))).max(0.0)
    }

    fn arriving(&self, lost: f64, output: f64) -> f64 {
        (self.kept - lost / output).max(LEAST_ARRIVING)
    }
}

/// What one machine did in one hour, kW.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Ran {
    /// Heat that reached the room.
    pub(crate) heat: f64,
    /// Draw of its own fuel, electricity or what it burns.
    pub(crate) draw: f64,
    /// Electricity beside the fuel (a blower).
    pub(crate) side: f64,
    /// Share of the hour that it ran; of resistance heat nobody asks.
    pub(crate) share: f64,
}

impl Placed {
    pub(crate) fn store(&self) -> Option<usize> {
        match &self.machine {
            Machine::Furnace(furnace) => furnace.store,
            _ => None,
        }
    }

    /// Least and greatest output while it runs, kW, with what tempers its air.
    fn outputs(&self, now: Option<&AtHour>, hour: Hour) -> (f64, f64) {
        match &self.machine {
            Machine::HeatPump(pump) => {
                let Some(now) = now else { return (0.0, 0.0) };
                let full = now.full(pump.fan).min(hour.heat);
                let with = |output: f64| if full > 0.0 { output + hour.tempered } else { output };
                (with(now.least.capacity + pump.fan), with(full))
            }
            Machine::Furnace(furnace) => (furnace.full(), furnace.full()),
            Machine::Resistance(capacity) => (*capacity, *capacity),
        }
    }

    /// Greatest heat to the room, kW.
    pub(crate) fn full(&self, now: Option<&AtHour>, hour: Hour) -> f64 {
        let (_, output) = self.outputs(now, hour);
        let burning = match &self.machine {
            Machine::Furnace(furnace) => (hour.fuel / furnace.burning()).min(1.0),
            _ => 1.0,
        };
        match &self.form {
            Some(_) if output <= 0.0 => 0.0,
            Some(form) => output * burning * form.arriving(hour.lost, output),
            None => output * burning * self.duct_efficiency,
        }
    }

    /// The same as [`Self::run`] through ducts that lose heat while air moves.
    fn run_through(&self, form: &DuctForm, now: Option<&AtHour>, wanted: f64, time: f64, hour: Hour) -> Ran {
        let lost = hour.lost;
        let (least, full) = self.outputs(now, hour);
        if full <= 0.0 {
            return Ran::default();
        }
        let too_little = form.kept - lost / least < LEAST_ARRIVING;
        let lowest = if too_little { (lost / (form.kept - LEAST_ARRIVING)).min(full) } else { least };
        // In the room while it has the hour.
        let load = (wanted / time).min(full * form.arriving(lost, full));
        let low = lowest * form.arriving(lost, lowest);
        let running = (load / low).min(1.0);
        let output = if load < low { lowest } else { ((load + lost) / form.kept).min(full) };
        match &self.machine {
            Machine::HeatPump(pump) => {
                let Some(now) = now else { return Ran::default() };
                let steady = now.power(output - hour.tempered, pump.cycling_loss, pump.fan) - pump.fan;
                let factor = 1.0 - pump.cycling_loss * (1.0 - running);
                let draw = running * steady / factor + running * pump.fan;
                Ran { heat: time * load, draw: time * draw, share: time * running, ..Ran::default() }
            }
            Machine::Furnace(furnace) => {
                furnace.ran(time * running, full * form.arriving(lost, full), hour.fuel)
            }
            Machine::Resistance(_) => {
                Ran { heat: time * load, draw: time * running * full, ..Ran::default() }
            }
        }
    }

    /// Runs for `time` (a share of the hour) and at most `wanted` kW, the hour's mean, to the room.
    pub(crate) fn run(&self, now: Option<&AtHour>, wanted: f64, time: f64, hour: Hour) -> Ran {
        if wanted < 1e-12 || time <= 0.0 {
            return match &self.machine {
                Machine::Furnace(furnace) => furnace.ran(0.0, 0.0, hour.fuel),
                _ => Ran::default(),
            };
        }
        if let Some(form) = &self.form {
            return self.run_through(form, now, wanted, time, hour);
        }
        // While it runs, it must give this much at its own outlet.
        let load = wanted / time / self.duct_efficiency;
        match &self.machine {
            Machine::HeatPump(pump) => {
                let Some(now) = now else { return Ran::default() };
                let (least, full) = self.outputs(Some(now), hour);
                let load = load.min(full);
                let running = (load / least).min(1.0);
                let own = load - if full > 0.0 { hour.tempered * running } else { 0.0 };
                Ran {
                    heat: time * load * self.duct_efficiency,
                    draw: time * now.power(own, pump.cycling_loss, pump.fan),
                    share: time * running,
                    ..Ran::default()
                }
            }
            Machine::Furnace(furnace) => {
                let share = time * (load / furnace.full()).min(1.0);
                furnace.ran(share, furnace.full() * self.duct_efficiency, hour.fuel)
            }
            Machine::Resistance(capacity) => {
                let output = time * load.min(*capacity);
                Ran { heat: output * self.duct_efficiency, draw: output, ..Ran::default() }
            }
        }
    }
}
