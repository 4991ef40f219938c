#include "schema_steps.h"

namespace strikeoff {

std::vector<std::string> schemaStep3()
{
    return {
        // Return visits: the shop and its roads, what the owner pinned or put off, what is in the shop.
        "ALTER TABLE settings ADD COLUMN shop_latitude {int}",
        "ALTER TABLE settings ADD COLUMN shop_longitude {int}",
        "ALTER TABLE settings ADD COLUMN road_factor {int} NOT NULL DEFAULT 1300",
        "ALTER TABLE settings ADD COLUMN drive_mph {int} NOT NULL DEFAULT 30",
        "ALTER TABLE settings ADD COLUMN visits_from {int}",
        "ALTER TABLE settings ADD COLUMN visits_to {int}",
        "ALTER TABLE settings ADD COLUMN visit_runs {int} NOT NULL DEFAULT 1",
        "ALTER TABLE settings ADD COLUMN sealer_spare_pct {int} NOT NULL DEFAULT 50000",
        "ALTER TABLE settings ADD COLUMN blade_feet_left {int}",
        "ALTER TABLE settings ADD COLUMN accelerator_codes TEXT",
        "ALTER TABLE settings ADD COLUMN southern_half {int} NOT NULL DEFAULT 0",
        "ALTER TABLE crew_member ADD COLUMN does_visits {int} NOT NULL DEFAULT 1",
        "ALTER TABLE finishing_product ADD COLUMN counted_on TEXT",
        "ALTER TABLE pour ADD COLUMN concrete_temp_f {int}",
        "ALTER TABLE visit ADD COLUMN pinned {int} NOT NULL DEFAULT 0",
        "ALTER TABLE visit ADD COLUMN people {int}",
        "ALTER TABLE visit ADD COLUMN photos TEXT",
        "ALTER TABLE visit ADD COLUMN put_off_on TEXT",
        "ALTER TABLE visit ADD COLUMN put_off_reason TEXT",
R"sql(CREATE TABLE town_drive (id {id}, revision {int} NOT NULL, from_town TEXT NOT NULL, to_town TEXT NOT NULL,
    minutes {int} NOT NULL) {strict})sql",
        // What chains each entry of the trail to the one before: SHA-256 as hexadecimal digits.
        "ALTER TABLE edit ADD COLUMN chain TEXT",
    };
}

}
