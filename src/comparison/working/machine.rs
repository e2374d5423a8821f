//! What a machine's output rests on in a moment: the rows of its map, and what keeps it off.
//!
//! Start at [`MachineFacts`].

use crate::calendar::Stamp;
use crate::equipment::ground::Ground;
use crate::equipment::map::{MapRow, PerformanceMap, Point};
use crate::equipment::origin::{Burner, RowOrigin, RowsFrom, RowsOrigin};
use crate::equipment::{Heating, Machine, Presence};
use crate::load::Zone;
use crate::simulation::hour_map::presences;
use crate::simulation::plan::ZonePlan;
use crate::simulation::source::{cooling_source_c, day_of_year, heating_source_c};
use crate::weather::OutdoorRun;

/// What a machine's output rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct MachineFacts {
    /// The machine's name.
    pub name: String,
    /// The temperature that its map goes by, °C: the outdoors', or what its ground loop brings.
    pub source_c: f64,
    /// Whether it is on there; without hours in order, as if it had been on before.
    pub presence: Presence,
    /// Its cut-out, if it has one.
    pub cut_out: Option<CutOut>,
    /// Off above this, °C.
    pub lockout_above_c: Option<f64>,
    /// Whether its supplier has switched it off.
    pub interrupted: bool,
    /// The coldest row of its map, °C.
    pub coldest_row_c: f64,
    /// The two rows of its map and the share of the way between them, where it has more than one.
    pub rows: Option<(MapRow, MapRow, f64)>,
    /// The row between them.
    pub row: Option<MapRow>,
    /// Whether that row is the line between the two and nothing was held to a bound.
    pub on_the_line: bool,
    /// Who gives its rows.
    pub rows_from: Option<RowsFrom>,
    /// How each of the two rows came about, where they are not worked out together.
    pub row_origins: [Option<RowOrigin>; 2],
    /// Its burner, if it has one.
    pub burner: Option<Burner>,
    /// What its ground loop brings, if it has one.
    pub entering: Option<Entering>,
}

/// What a ground loop brings: `ground − (design ground − design entering)·need/design need`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entering {
    /// The ground.
    pub ground: Ground,
    /// The day of the year; without one the ground is at its coldest (cooling: warmest).
    pub day: Option<f64>,
    /// How warm the ground is, °C.
    pub ground_c: f64,
    /// At its coldest (cooling: warmest), °C.
    pub design_ground_c: f64,
    /// What comes in then at the design need, °C.
    pub design_entering_c: f64,
    /// The zone's steady need, kW.
    pub need_kw: f64,
    /// At the design temperature, kW.
    pub design_need_kw: f64,
    /// The share of the one in the other.
    pub share: f64,
    /// What comes in, °C.
    pub entering_c: f64,
}

/// A cut-out as it stands in a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutOut {
    /// Off at or below this, °C.
    pub cut_out_c: f64,
    /// On again above this, °C.
    pub cut_on_c: f64,
    /// The hour since which it has been off without a break, where it is and there are hours in order.
    pub since: Option<Stamp>,
}

/// An outdoor temperature, °C, and the day of the year, if it has one.
#[derive(Clone, Copy)]
pub(super) struct At {
    pub(super) outdoor_c: f64,
    pub(super) day: Option<f64>,
}

/// What the moment stands in.
pub(super) enum Within<'a> {
    Steady(At),
    Year { plan: &'a ZonePlan, run: &'a OutdoorRun, hour: usize },
}

impl Within<'_> {
    /// The moment itself.
    pub(super) fn at(&self) -> At {
        match self {
            Self::Steady(at) => *at,
            Self::Year { run, hour, .. } => of_hour(run, *hour),
        }
    }

    /// Whether the heater is on, and since when it has been off by its cut-out.
    fn presence(&self, heating: &Heating, source: impl Fn(At) -> f64) -> (Presence, Option<Stamp>) {
        let Self::Year { run, hour, .. } = self else {
            return (heating.presence(source(self.at()), true), None);
        };
        let all: Vec<_> = presences(heating, (0..=*hour).map(|i| source(of_hour(run, i)))).collect();
        let back_on = all.iter().rposition(|presence| *presence != Presence::CutOut);
        let since = back_on.map_or(0, |i| i + 1);
        let presence = all.last().copied().unwrap_or(Presence::On);
        let stamp = run.calendar.stamps().get(since).filter(|_| presence == Presence::CutOut);
        (presence, stamp.copied())
    }

    /// Whether the heater of that place is off though its own controls would let it run.
    fn is_interrupted(&self, place: usize) -> bool {
        let Self::Year { plan, hour, .. } = self else { return false };
        let heater = plan.heaters.get(place);
        heater.is_some_and(|h| h.off.interrupted > 0 && h.hours.at(*hour).greatest <= 0.0)
    }
}

fn of_hour(run: &OutdoorRun, hour: usize) -> At {
    let day = run.calendar.stamps().get(hour).map(|stamp| day_of_year(*stamp));
    At { outdoor_c: run.dry_bulb_c.get(hour).copied().unwrap_or(f64::NAN), day }
}

/// The facts of the heater of that place.
pub(super) fn heater_facts(
    machine: &Machine,
    zone: &Zone,
    (place, within): (usize, &Within<'_>),
) -> Option<MachineFacts> {
    let heating = machine.heating.as_ref()?;
    let source = |at: At| heating_source_c(machine, zone, at.outdoor_c, at.day);
    let source_c = source(within.at());
    let (presence, since) = within.presence(heating, source);
    let cut_out = heating.cut_out_c.map(|cut_out_c| CutOut {
        cut_out_c,
        cut_on_c: heating.cut_on_c.unwrap_or(cut_out_c),
        since,
    });
    Some(MachineFacts {
        name: machine.name.clone(),
        source_c,
        presence,
        cut_out,
        lockout_above_c: heating.lockout_above_c,
        interrupted: presence == Presence::On && within.is_interrupted(place),
        burner: machine.origin.burner,
        entering: heating_entering(machine, zone, within.at(), source_c),
        ..of_map(&heating.map, heating.row_at(source_c), (machine.origin.heating.as_ref(), source_c))
    })
}

/// The facts of a cooler.
pub(super) fn cooler_facts(machine: &Machine, zone: &Zone, at: At) -> Option<MachineFacts> {
    let map: &PerformanceMap = &machine.cooling.as_ref()?.map;
    let source_c = cooling_source_c(machine, zone, at.outdoor_c, at.day);
    let name = machine.name.clone();
    let entering = cooling_entering(machine, zone, at, source_c);
    let origin = (machine.origin.cooling.as_ref(), source_c);
    Some(MachineFacts { name, source_c, entering, ..of_map(map, map.held_at(source_c), origin) })
}

/// What rests on the map alone, which gives `row` at the temperature at which that stands.
fn of_map(map: &PerformanceMap, row: MapRow, (origin, source_c): (Option<&RowsOrigin>, f64)) -> MachineFacts {
    let varies = map.rows().len() > 1;
    let rows = varies.then(|| map.around(row.outdoor_c)).flatten();
    MachineFacts {
        name: String::new(),
        source_c: row.outdoor_c,
        presence: Presence::On,
        cut_out: None,
        lockout_above_c: None,
        interrupted: false,
        coldest_row_c: map.coldest_c(),
        on_the_line: rows.is_some_and(|(low, high, share)| is_on_the_line(&low, &high, share, &row)),
        row: varies.then_some(row),
        rows_from: origin.map(|origin| origin.from.clone()),
        row_origins: rows.map_or([None; 2], |(low, high, _)| {
            [low, high].map(|row| origin.and_then(|origin| origin.row(row.outdoor_c, source_c)))
        }),
        rows,
        burner: None,
        entering: None,
    }
}

fn heating_entering(machine: &Machine, zone: &Zone, at: At, entering_c: f64) -> Option<Entering> {
    let ground_loop = machine.ground?;
    let ground = ground_loop.ground;
    let design_ground_c = ground.coldest_c();
    Some(Entering {
        ground,
        day: at.day,
        ground_c: at.day.map_or(design_ground_c, |day| ground.at(day)),
        design_ground_c,
        design_entering_c: ground_loop.design_entering_c,
        need_kw: zone.steady_need_kw(at.outdoor_c),
        design_need_kw: zone.steady_need_kw(zone.design_temperature_c),
        share: zone.design_share(at.outdoor_c),
        entering_c,
    })
}

fn cooling_entering(machine: &Machine, zone: &Zone, at: At, entering_c: f64) -> Option<Entering> {
    let (ground_loop, need) = (machine.ground?, zone.cooling?);
    let ground = ground_loop.ground;
    let design_ground_c = ground.warmest_c();
    Some(Entering {
        ground,
        day: at.day,
        ground_c: at.day.map_or(design_ground_c, |day| ground.at(day)),
        design_ground_c,
        design_entering_c: ground_loop.cooling_design_entering_c?,
        need_kw: zone.steady_cooling_kw(at.outdoor_c),
        design_need_kw: zone.steady_cooling_kw(need.design_temperature_c),
        share: zone.cooling_design_share(at.outdoor_c),
        entering_c,
    })
}

fn is_on_the_line(low: &MapRow, high: &MapRow, share: f64, row: &MapRow) -> bool {
    let near = |a: f64, b: f64, is: f64| (a + share * (b - a) - is).abs() < 1e-9;
    let point = |a: Point, b: Point, is: Point| {
        near(a.capacity_kw, b.capacity_kw, is.capacity_kw) && near(a.power_kw, b.power_kw, is.power_kw)
    };
    point(low.least, high.least, row.least)
        && point(low.rated, high.rated, row.rated)
        && point(low.greatest, high.greatest, row.greatest)
}
