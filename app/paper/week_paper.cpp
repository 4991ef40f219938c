#include "paper/paper_parts.h"
#include "paper/papers.h"

#include "labor/crew_week.h"

namespace strikeoff {

namespace {

std::string orBlank(Minutes minutes) { return minutes == Minutes{} ? std::string{} : minutes.shown(); }

}

PaperDocument crewWeekPaper(const Settings& settings, const CrewWeek& week)
{
    auto [paper, heading] = startPaper(settings, "Crew week", week.from.text());
    heading.facts.push_back({"From", week.from.shown(), true});
    heading.facts.push_back({"To", week.to.shown(), true});
    heading.state = "For whoever does the payroll";
    heading.logo.clear();
    paper.add(std::move(heading));
    paper.turn = PaperTurn::asNeeded;
    paper.add(PaperParagraph{week.answer, PaperText::body, true});

    PaperTable hours;
    hours.size = PaperText::small;
    hours.columns = {{"Person", PaperSide::left}};
    for (int i = 0; i < 7; ++i) hours.columns.push_back({(week.from + i).shownShort(), PaperSide::right});
    for (const auto* name : {"Straight, h", "Overtime, h", "Double, h"}) hours.columns.push_back({name, PaperSide::right});
    const auto row = [](const std::string& name, const std::vector<Minutes>& days, const WeekPay& pay) {
        PaperRow made{{name}, {}, PaperRowManner::plain};
        for (const auto day : days) made.cells.push_back(orBlank(day));
        for (const auto part : {pay.straightMinutes(), pay.overtime, pay.doubled}) made.cells.push_back(orBlank(part));
        return made;
    };
    PaperTable pay;
    pay.size = PaperText::small;
    pay.columns = {{"Person", PaperSide::left}, {"Regular rate, $/h", PaperSide::right}, {"Straight pay, $", PaperSide::right}, {"of it bonus, $", PaperSide::right},
                   {"Premium, $", PaperSide::right}, {"Gross, $", PaperSide::right}, {"Burden, $", PaperSide::right}, {"True cost, $", PaperSide::right}};
    const auto payRow = [](const std::string& name, const std::string& rate, const WeekPay& of, PaperRowManner manner) {
        return PaperRow{{name, rate, of.straight.shown(), of.bonus.isZero() ? "" : of.bonus.shown(), of.premium.isZero() ? "" : of.premium.shown(), of.gross().shown(),
                         of.burdenTotal().shown(), of.trueCost().shown()}, {}, manner};
    };
    for (const auto& mine : week.people) {
        hours.rows.push_back(row(mine.person->name, mine.minutesByDay(), mine.pay));
        pay.rows.push_back(payRow(mine.person->name, mine.pay.regularRate ? mine.pay.regularRate->shown(4) : "", mine.pay, PaperRowManner::plain));
    }
    auto all = row("All", week.minutesByDay(), week.all);
    all.manner = PaperRowManner::apart;
    hours.rows.push_back(std::move(all));
    pay.rows.push_back(payRow("All", "", week.all, PaperRowManner::apart));
    if (!week.people.empty()) {
        paper.add(PaperSection{"Hours"});
        paper.add(std::move(hours));
        paper.add(PaperSection{"Pay"});
        paper.add(std::move(pay));
        PaperTable burden;
        burden.size = PaperText::small;
        burden.columns = {{"On top of pay", PaperSide::left}, {"Amount, $", PaperSide::right}};
        for (std::size_t i = 0; i < burdenItemCount; ++i)
            if (!week.all.burden[i].isZero()) burden.rows.push_back({{std::string{burdenItemChoices[i].label}, week.all.burden[i].shown()}, {}, PaperRowManner::plain});
        if (!burden.rows.empty()) {
            paper.add(PaperSection{"Burden"});
            paper.add(std::move(burden));
        }
    }
    for (const auto& caution : week.cautions) paper.add(PaperParagraph{caution, PaperText::small, false});
    return std::move(paper);
}

}
