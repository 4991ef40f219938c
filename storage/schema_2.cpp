#include "schema_steps.h"

namespace strikeoff {

std::vector<std::string> schemaStep2()
{
    return {
        // The ticket check: what the owner paired, parted and let stand, and the rules a load is held to.
        "ALTER TABLE supplier ADD COLUMN statement_columns TEXT",
        "ALTER TABLE ticket ADD COLUMN discharge_limit_minutes {int}",
        "ALTER TABLE statement ADD COLUMN stands_because TEXT",
        "ALTER TABLE statement_line ADD COLUMN leave_unpaired {int} NOT NULL DEFAULT 0",
        "ALTER TABLE statement_line ADD COLUMN stands_because TEXT",
        "ALTER TABLE claim ADD COLUMN statement {int} REFERENCES statement (id) DEFERRABLE INITIALLY DEFERRED",
        "ALTER TABLE settings ADD COLUMN discharge_limit_minutes {int} NOT NULL DEFAULT 90",
        "ALTER TABLE settings ADD COLUMN slump_tolerance_in {int}",
        "ALTER TABLE settings ADD COLUMN least_concrete_temp_f {int}",
        "ALTER TABLE settings ADD COLUMN heat_codes TEXT",
        "ALTER TABLE settings ADD COLUMN water_limit_gal_per_yard {int} NOT NULL DEFAULT 0",
        // What an hour costs: how the week's pay is figured, bonuses, and what comes on top of pay.
        "ALTER TABLE settings ADD COLUMN clock_rounding TEXT NOT NULL DEFAULT 'none'",
        "ALTER TABLE settings ADD COLUMN overtime_rule TEXT NOT NULL DEFAULT 'weekly'",
        "ALTER TABLE settings ADD COLUMN premium_spread TEXT NOT NULL DEFAULT 'week'",
        "ALTER TABLE settings ADD COLUMN rate_rounding TEXT NOT NULL DEFAULT 'exact'",
        "ALTER TABLE pay_rate ADD COLUMN phase TEXT",
        "ALTER TABLE pay_rate ADD COLUMN day_rate {int}",
R"sql(CREATE TABLE bonus (id {id}, revision {int} NOT NULL,
    person {int} NOT NULL REFERENCES crew_member (id) DEFERRABLE INITIALLY DEFERRED, amount {int} NOT NULL,
    earned_from TEXT NOT NULL, earned_to TEXT NOT NULL, paid_on TEXT, note TEXT) {strict})sql",
R"sql(CREATE TABLE burden_rate (id {id}, revision {int} NOT NULL, item TEXT NOT NULL, from_date TEXT NOT NULL, comp_class TEXT,
    basis TEXT NOT NULL, rate {int}, wage_base {int}, on_premium {int} NOT NULL, source TEXT, note TEXT) {strict})sql",
    };
}

}
