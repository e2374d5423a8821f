//! The job file: TOML text into sections whose values keep their place, or all problems at once.
//!
//! Knows the form of the file and the ranges of its values; never what they mean for heat or money,
//! and opens no file. Start at [`sections`].

pub mod typed;
pub mod money;
pub mod costs;
pub mod nameplates;
pub mod household;
pub mod burners;
pub mod machines;
pub mod choices;
pub mod price_sections;
pub mod supply;
pub mod what_if;
pub mod past_use;
pub mod sections;
pub mod path;
mod wording;
mod fuel_words;
mod limits;
mod values;
mod examples;
mod found;
mod table;
mod key_check;
mod names;
mod slips;
mod syntax;
mod house_reader;
mod site_reader;
mod map_reader;
mod nameplate_reader;
mod household_reader;
mod burner_reader;
mod heat_pump_reader;
mod machine_reader;
mod money_reader;
mod costs_reader;
mod choice_reader;
mod rate_check;
mod rate_reader;
mod past_use_reader;
mod price_reader;
mod supply_reader;
mod what_if_reader;
mod agreement;
pub mod reader;
pub mod edit;
pub mod edit_list;
mod schema_values;
mod schema_machines;
mod schema_prices;
mod schema_supply;
mod schema_costs;
mod schema_what_if;
pub mod schema;

pub use burners::{BoilerSection, StoveSection, WallHeaterSection};
pub use choices::{ChangeoverRule, OptionSection, OptionZoneSection, Sharing};
pub use costs::{CostSection, EconomicsSection, IncentiveSection, LoanSection, OptionCosts};
pub use household::{
    DryerSection, HouseholdMachines, HouseholdSection, Location, RangeSection, WaterHeaterForm,
    WaterHeaterSection,
};
pub use machines::{
    AirConditionerSection, CapacityBasis, DefrostAuxSection, DefrostSection, DrawSection, EquipmentSection,
    FurnaceSection, GroundSection, HeatPumpSection, MachineSection, MapSection, OutdoorUnitSection,
    PointSection, ResistanceSection, RowSection, Speed, UnitRowSection,
};
pub use money::{AmountText, PriceText};
pub use nameplates::{CoolingPlateSection, HeatingPlateSection, NameplateSection};
pub use past_use::{BillSection, PastUseSection};
pub use price_sections::{
    ClockSpanSection, DaysSection, FuelPriceSection, HeatingRateSection, HoursSection, MovesSection,
    PastSection, PeriodSection, PriceSection, PricesSection, RateSection, RiderAmount, RiderSection,
    SeasonSection, SpikeSection, SummerAndPeak, TierSection, YearlyUseSection,
};
pub use sections::{
    CoolingSection, DuctsSection, HouseSection, Job, JobSection, MonthlySection, PaperWord, SetBackSection,
    SiteSection, Units, WeatherClock, WeatherFormat, WeatherGaps, WeatherSection, ZoneSection, problem_at,
};
pub use supply::{
    FeesSection, LeftOverWord, OrdersWord, OwnerWord, PlacementWord, PlanSection, PlanWord, PriceDayWord,
    SupplySection, TankSection,
};
pub use typed::{ClockTime, Typed};
pub use what_if::{DrawsSection, PriceChangeSection, ScenarioSection, VarySection, VaryWhat};
pub(crate) use wording::closest;
