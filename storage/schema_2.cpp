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
    };
}

}
