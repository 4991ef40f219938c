#pragma once

#include "record/choices.h"

namespace strikeoff {

struct Customer {
    Id<Customer> id;
    std::int32_t revision = 0;
    std::string name;
    std::string phone;
    std::string email;
    std::string address;
    std::string town;
    std::optional<std::int32_t> termsDays;
    bool taxExempt = false;
    std::string note;
};

struct Site {
    Id<Site> id;
    std::int32_t revision = 0;
    std::string name;
    Id<Customer> customer;
    std::string address;
    std::string town;
    std::optional<Degrees> latitude;
    std::optional<Degrees> longitude;
    std::optional<Minutes> driveMinutes;
    std::string note;
};

struct Lead {
    Id<Lead> id;
    std::int32_t revision = 0;
    std::string number;
    Date receivedOn;
    std::string name;
    std::string phone;
    std::string email;
    std::string town;
    LeadSource source = LeadSource::referral;
    std::optional<Id<Customer>> customer;
    std::optional<Id<JobType>> jobType;
    std::optional<Area> area;
    std::string wish;
    std::optional<Date> calledOn;
    std::optional<Date> nextCallOn;
    std::optional<Date> lostOn;
    std::string lostReason;
    std::string note;
};

struct Supplier {
    Id<Supplier> id;
    std::int32_t revision = 0;
    std::string name;
    std::string phone;
    std::string email;
    std::string address;
    std::string accountNumber;
    std::optional<std::int32_t> termsDays;
    std::optional<std::int32_t> discountDays;
    std::string note;
    std::string statementColumns;  ///< as StatementGuess::text writes it
};

struct CrewMember {
    Id<CrewMember> id;
    std::int32_t revision = 0;
    std::string name;
    std::string role;
    std::string phone;
    std::optional<Date> hiredOn;
    std::optional<Date> leftOn;
    std::string compClass;
    std::string note;
    bool doesVisits = true;
};

struct PayRate {
    Id<PayRate> id;
    std::int32_t revision = 0;
    Id<CrewMember> person;
    Date fromDate;
    std::optional<Phase> phase;
    UnitPrice hourlyRate;
    std::optional<Money> dayRate;
    std::string note;
};

struct Bonus {
    Id<Bonus> id;
    std::int32_t revision = 0;
    Id<CrewMember> person;
    Money amount;
    Date earnedFrom;
    Date earnedTo;
    std::optional<Date> paidOn;
    std::string note;
};

struct BurdenRate {
    Id<BurdenRate> id;
    std::int32_t revision = 0;
    BurdenItem item = BurdenItem::socialSecurity;
    Date fromDate;
    std::string compClass;
    BurdenBasis basis = BurdenBasis::percent;
    std::optional<UnitPrice> rate;  ///< per cent, dollars per $100 or dollars per hour, as the basis says; not recorded while the owner has yet to set it
    std::optional<Money> wageBase;
    bool onPremium = true;
    std::string source;
    std::string note;
};

struct Hours {
    Id<Hours> id;
    std::int32_t revision = 0;
    Id<CrewMember> person;
    Date date;
    std::optional<Id<Job>> job;
    std::optional<Id<Pour>> pour;
    Phase phase = Phase::place;
    std::optional<ClockTime> startedAt;
    std::optional<ClockTime> endedAt;
    std::optional<Minutes> unpaidMinutes;
    std::optional<Minutes> minutes;
    SharedText note;

    /// Paid minutes: as written, or from start to end (over midnight too) less the unpaid ones; none when neither is recorded.
    std::optional<Minutes> worked() const;
};

}
