#include "domain/book_maker.h"
#include "domain/take_step.h"
#include "visits/visit_list.h"

#include <set>

using namespace strikeoff;

namespace {

const auto day = on("2026-06-10");

Step stepOf(std::optional<Edit> edit)
{
    Step step;
    step.edit = std::move(edit);
    return step;
}

std::string kindsOf(const std::vector<NeededVisit>& visits)
{
    std::string text;
    for (const auto& visit : visits) text += std::string{text.empty() ? "" : " "} + std::string{codeOf(visit.kind)} + (visit.coat > 1 ? std::to_string(visit.coat) : "");
    return text;
}

struct Yard {
    BookMaker maker;
    Id<FinishingProduct> guard = maker.add(FinishingProduct{.name = "Guard", .waitLeastHours = 672, .coats = 2});
    Id<JobType> type = maker.add(JobType{.name = "Drive", .product = guard, .resealMonths = 30});
    Id<Job> job = maker.job("Alder Court drive");
    Id<Pour> pour;
    Yard()
    {
        maker.change(job, [&](Job& row) { row.jobType = type; });
        pour = maker.add(Pour{.job = job, .plannedOn = day, .area = Area::ofWhole(600), .sawJoint = Quantity::ofWhole(80)});
    }
    const Job& folder() const { return maker.book.get(job); }
    std::string needed() const { return kindsOf(neededVisits(maker.book, folder())); }
};

}

TEST_CASE("marking a pour as done puts the visits it needs on the list", "[visits][needs]")
{
    Yard yard;
    CHECK(yard.needed().empty());
    take(yard.maker.book, finishPour(yard.maker.book, yard.maker.book.get(yard.pour), day));
    CHECK(yard.needed() == "strip cut seal seal2 walk_through reseal_call");
    CHECK(missingVisits(yard.maker.book).empty());
    REQUIRE(yard.maker.book.all<Visit>().size() == 6);
    for (const auto& visit : yard.maker.book.all<Visit>()) {
        CHECK(visit.job == yard.job);
        CHECK(visit.pour == yard.pour);
        CHECK(visit.isOpen());
        CHECK_FALSE(visit.due);  // its window follows from the pour
        if (visit.kind == VisitKind::seal) CHECK(visit.product == yard.guard);
        if (visit.kind == VisitKind::cut) CHECK(visit.minutes == Minutes::of(65));  // 20 minutes and 0.55 a foot (common practice, no source)
    }
}

TEST_CASE("each kind of visit follows from type, joints and product", "[visits][needs]")
{
    Yard yard;
    auto& maker = yard.maker;
    maker.change(yard.pour, [](Pour& row) { row.pouredOn = day; });
    const auto change = [&](auto to) { maker.change(yard.type, to); };

    change([](JobType& row) { row.stripVisit = false; });
    CHECK(yard.needed() == "cut seal seal2 walk_through reseal_call");
    change([](JobType& row) { row.cutVisit = false; });
    CHECK(yard.needed() == "seal seal2 walk_through reseal_call");
    maker.change(yard.pour, [](Pour& row) { row.reliefCut = true; });
    CHECK(yard.needed() == "cut seal seal2 walk_through reseal_call");
    change([](JobType& row) { row.cutVisit = true; });
    maker.change(yard.pour, [](Pour& row) { row.reliefCut = false; row.sawJoint = Quantity{}; });
    CHECK(yard.needed() == "seal seal2 walk_through reseal_call");  // joints are written as none
    maker.change(yard.pour, [](Pour& row) { row.sawJoint.reset(); });
    CHECK(yard.needed() == "cut seal seal2 walk_through reseal_call");  // and not recorded is not none
    change([](JobType& row) { row.walkThrough = false; row.resealMonths.reset(); });
    CHECK(yard.needed() == "cut seal seal2");
    const auto cure = maker.add(FinishingProduct{.name = "Cure", .kind = ProductKind::cureAndSeal});
    maker.change(yard.pour, [&](Pour& row) { row.product = cure; });
    CHECK(yard.needed() == "cut seal");
    change([](JobType& row) { row.sealVisit = false; });
    CHECK(yard.needed() == "cut");

    maker.change(yard.job, [](Job& row) { row.jobType.reset(); });
    CHECK(yard.needed() == "strip seal walk_through");
    maker.change(yard.pour, [](Pour& row) { row.product.reset(); row.sawJoint = Quantity::ofWhole(40); });
    CHECK(yard.needed() == "strip cut walk_through");
}

TEST_CASE("the last look waits for the last pour, the others for their own", "[visits][needs]")
{
    Yard yard;
    auto& maker = yard.maker;
    const auto second = maker.add(Pour{.job = yard.job, .sequence = 2, .plannedOn = day + 7});
    take(maker.book, finishPour(maker.book, maker.book.get(yard.pour), day));
    CHECK(yard.needed() == "strip cut seal seal2");
    take(maker.book, finishPour(maker.book, maker.book.get(second), day + 7));
    CHECK(yard.needed() == "strip cut seal seal2 strip cut seal seal2 walk_through reseal_call");
    CHECK(missingVisits(maker.book).empty());
    CHECK(maker.book.all<Visit>().size() == 10);
}

TEST_CASE("what is on the list, done or waived already is not added again", "[visits][needs]")
{
    Yard yard;
    auto& maker = yard.maker;
    maker.add(Visit{.job = yard.job, .kind = VisitKind::strip, .doneOn = day});  // without its pour: stands for all
    maker.add(Visit{.job = yard.job, .pour = yard.pour, .kind = VisitKind::cut, .waivedOn = day, .waivedReason = "tooled"});
    maker.add(Visit{.job = yard.job, .kind = VisitKind::walkThrough});
    maker.change(yard.pour, [](Pour& row) { row.pouredOn = day; });
    CHECK(kindsOf(missingVisits(maker.book)) == "seal seal2 reseal_call");
    const auto edit = addMissingVisits(maker.book, yard.folder());
    REQUIRE(edit);
    CHECK(edit->title() == "Put on the list what job 1001 needs: seal, seal (coat 2) and reseal call");
    take(maker.book, stepOf(edit));
    CHECK(missingVisits(maker.book).empty());
    CHECK_FALSE(addMissingVisits(maker.book, yard.folder()));
    CHECK_FALSE(addMissingVisits(maker.book));
    CHECK(missingText({}).empty());

    maker.change(yard.job, [](Job& row) { row.droppedOn = day; row.droppedReason = "moved"; });
    for (const auto& visit : std::vector<Visit>(maker.book.all<Visit>().begin(), maker.book.all<Visit>().end())) maker.book.erase(RecordKind::visit, visit.id.value());
    CHECK(missingVisits(maker.book).empty());  // nobody goes back to a job that was given up
}

namespace {

/// What a pour needs, told apart from the code under test: by the flags alone.
std::set<std::tuple<std::int64_t, VisitKind, int>> needsByFlags(const Book& book)
{
    std::set<std::tuple<std::int64_t, VisitKind, int>> needs;
    for (const auto& job : book.all<Job>()) {
        const auto& type = book.get(*job.jobType);
        bool all = true;
        bool any = false;
        for (const auto* pour : book.referring<&Pour::job>(job.id)) {
            if (!pour->pouredOn) { all = false; continue; }
            any = true;
            if (type.stripVisit) needs.insert({pour->id.value(), VisitKind::strip, 1});
            if (pour->reliefCut || (type.cutVisit && pour->sawJoint != Quantity{})) needs.insert({pour->id.value(), VisitKind::cut, 1});
            if (type.sealVisit) {
                const auto product = pour->product ? pour->product : type.product;
                for (int coat = 1; coat <= (product ? book.get(*product).coats : 1); ++coat) needs.insert({pour->id.value(), VisitKind::seal, coat});
            }
        }
        if (!any || !all) continue;
        if (type.walkThrough) needs.insert({-job.id.value(), VisitKind::walkThrough, 1});
        if (type.resealMonths) needs.insert({-job.id.value(), VisitKind::resealCall, 1});
    }
    return needs;
}

}

TEST_CASE("whatever is done, undone, rained on or skipped, every needed visit is done, waived or on the list", "[visits][needs]")
{
    std::uint32_t seed = 1;
    const auto pick = [&](std::size_t below) {
        seed = seed * 1664525 + 1013904223;
        return static_cast<std::size_t>(seed >> 8) % below;
    };
    int checked = 0;
    int undone = 0;
    for (int round = 0; round < 60; ++round) {
        BookMaker maker;
        auto& book = maker.book;
        std::vector<Id<FinishingProduct>> products;
        for (int i = 0; i < 3; ++i) products.push_back(maker.add(FinishingProduct{.name = "Product " + std::to_string(i), .waitLeastHours = 24 * static_cast<int>(pick(30)), .coats = 1 + static_cast<int>(pick(3))}));
        std::vector<Id<JobType>> types;
        for (int i = 0; i < 3; ++i)
            types.push_back(maker.add(JobType{.name = "Type " + std::to_string(i),
                                              .product = pick(2) ? std::optional{products[pick(3)]} : std::nullopt,
                                              .stripVisit = pick(4) > 0,
                                              .cutVisit = pick(4) > 0,
                                              .sealVisit = pick(4) > 0,
                                              .walkThrough = pick(4) > 0,
                                              .resealMonths = pick(2) ? std::optional{30} : std::nullopt}));
        for (int i = 0; i < 3; ++i) {
            const auto job = maker.job("Job " + std::to_string(i));
            maker.change(job, [&](Job& row) { row.jobType = types[pick(3)]; });
            for (int p = 0; p < 1 + static_cast<int>(pick(2)); ++p) maker.add(Pour{.job = job, .sequence = p + 1, .plannedOn = day + p});
        }
        std::vector<Book> before;  // to be gone back to
        for (int turn = 0; turn < 60; ++turn) {
            const auto today = day + turn;
            if (pick(6) == 0 && !before.empty()) {
                book = std::move(before.back());
                before.pop_back();
                ++undone;
            } else {
                before.push_back(book);
                const auto somePour = [&]() -> const Pour& { return *std::next(book.all<Pour>().begin(), static_cast<std::ptrdiff_t>(pick(book.all<Pour>().size()))); };
                const Visit* visit = book.all<Visit>().empty() ? nullptr : &*std::next(book.all<Visit>().begin(), static_cast<std::ptrdiff_t>(pick(book.all<Visit>().size())));
                switch (pick(12)) {
                case 0:
                case 1: if (const auto step = finishPour(book, somePour(), today); step.possible()) take(book, step); break;
                case 2: maker.change(somePour().id, [&](Pour& row) { row.pouredOn = today; }); break;  // typed on its form
                case 3: maker.change(somePour().id, [&](Pour& row) { row.pouredOn.reset(); }); break;
                case 4: maker.change(somePour().id, [&](Pour& row) { row.product = products[pick(3)]; row.sawJoint = Quantity::ofWhole(static_cast<int>(pick(3)) * 20); row.reliefCut = pick(4) == 0; }); break;
                case 5: maker.change(types[pick(3)], [&](JobType& row) { row.sealVisit = pick(2); row.cutVisit = pick(2); }); break;
                case 6: if (visit && visit->isOpen()) maker.change(visit->id, [&](Visit& row) { row.doneOn = today; }); break;
                case 7: if (visit) maker.change(visit->id, [&](Visit& row) { row.doneOn.reset(); row.waivedOn.reset(); row.waivedReason.clear(); }); break;
                case 8: if (visit && visit->isOpen()) maker.change(visit->id, [&](Visit& row) { row.waivedOn = today; row.waivedReason = "not worth it"; }); break;
                case 9: if (visit && visit->isOpen()) maker.change(visit->id, [&](Visit& row) { row.plannedOn = today + static_cast<int>(pick(5)); row.putOffOn = today; row.putOffReason = "rain"; }); break;
                case 10: if (visit) { book.erase(RecordKind::visit, visit->id.value()); } break;
                case 11: {
                    const auto& job = *std::next(book.all<Job>().begin(), static_cast<std::ptrdiff_t>(pick(book.all<Job>().size())));
                    if (auto edit = addMissingVisits(book, job)) take(book, stepOf(std::move(edit)));
                    CHECK(missingVisits(book, book.get(job.id)).empty());
                    break;
                }
                }
            }
            // The list as the owner sees it: open rows, done and waived ones, and what it says is missing.
            const auto list = visitList(book, today);
            std::set<std::tuple<std::int64_t, VisitKind, int>> seen;
            const auto see = [&](VisitKind kind, std::optional<Id<Pour>> pour, Id<Job> job, int coat) {
                const bool whole = kind == VisitKind::walkThrough || kind == VisitKind::resealCall;
                seen.insert({whole ? -job.value() : pour.value().value(), kind, kind == VisitKind::seal ? coat : 1});
            };
            for (const auto& row : list.visits) {
                see(row.visit->kind, row.visit->pour, row.visit->job, row.visit->coat);
                CHECK((row.state == VisitState::done) == row.visit->doneOn.has_value());
                CHECK((row.state == VisitState::waived) == row.visit->waivedOn.has_value());
                if (row.visit->waivedOn) CHECK_FALSE(row.visit->waivedReason.empty());
            }
            for (const auto& one : list.missing) see(one.kind, one.pour, one.job, one.coat);
            const auto needs = needsByFlags(book);
            CHECK(std::includes(seen.begin(), seen.end(), needs.begin(), needs.end()));
            checked += static_cast<int>(needs.size());
        }
    }
    CHECK(checked > 5000);
    CHECK(undone > 300);
}
