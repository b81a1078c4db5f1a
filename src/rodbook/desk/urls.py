"""The desk's site map."""

from django.urls import path, register_converter
from django.urls.converters import IntConverter

from rodbook.desk.book import charge_views as price_list
from rodbook.desk.book import confirming_views as confirming
from rodbook.desk.book import entry_views as book_entries
from rodbook.desk.book import learned_views as learned
from rodbook.desk.book import price_views as prices
from rodbook.desk.book import views as book
from rodbook.desk.book import wanted_views as wanted
from rodbook.desk.entrance import deeds_views as deeds
from rodbook.desk.entrance import people_views as people
from rodbook.desk.entrance import second_step_views as second
from rodbook.desk.entrance import views as entrance
from rodbook.desk.jobs import begin_views as begin
from rodbook.desk.jobs import history_views as history
from rodbook.desk.jobs import views as jobs
from rodbook.desk.keeping import backup_views as backups
from rodbook.desk.keeping import damage_views as damaged
from rodbook.desk.make import board_views as boards
from rodbook.desk.make import choice_views as money
from rodbook.desk.make import paper_views as papers
from rodbook.desk.make import quote_views as quotes
from rodbook.desk.money import account_views as account
from rodbook.desk.money import change_views as change
from rodbook.desk.money import price_views as price
from rodbook.desk.money import repricing_views as re_price
from rodbook.desk.openings import measuring_views as measuring
from rodbook.desk.openings import offline_views as offline
from rodbook.desk.openings import photo_views as photos
from rodbook.desk.openings import shape_views as shape
from rodbook.desk.openings import views as openings
from rodbook.desk.overview import views as overview
from rodbook.desk.platform import errors
from rodbook.desk.setout import leaf_views as leaves
from rodbook.desk.setout import part_views as parts
from rodbook.desk.setout import size_views as sizes
from rodbook.desk.site import date_views as dates
from rodbook.desk.site import hour_views as hours
from rodbook.desk.weeks import views as weeks

__all__ = ["handler400", "handler403", "handler404", "handler500", "urlpatterns"]

handler400, handler403 = errors.not_understood, errors.not_so
handler404, handler500 = errors.not_found, errors.broken


class Number(IntConverter):
    """A whole number that any database can hold; a longer one is no page."""

    regex = "[0-9]{1,15}"


register_converter(Number, "number")

urlpatterns = [
    path("", jobs.index, name="jobs"),
    path("begin/", begin.begin, name="begin"),
    path("enter/<str:key>/", entrance.enter, name="enter"),
    path("sw.js", offline.worker, name="worker"),
    path("manifest.webmanifest", offline.manifest, name="manifest"),
    path("no-signal/", offline.no_signal, name="no-signal"),
    path("outbox/", offline.outbox, name="outbox"),
    path("health", entrance.health, name="health"),
    path("login/", entrance.SignIn.as_view(), name="login"),
    path("login/code/", entrance.second_step, name="login-code"),
    path("logout/", entrance.SignOut.as_view(), name="logout"),
    path("documents/<number:pk>/settle/", history.settle, name="settle"),
    path("jobs/new/", jobs.new, name="job-new"),
    path("jobs/sample/", jobs.from_sample, name="job-sample"),
    path("jobs/<number:pk>/", overview.show, name="job"),
    path("jobs/<number:pk>/header/", overview.header, name="job-header"),
    path("jobs/<number:pk>/put-away/", jobs.put_away, name="job-put-away"),
    path("jobs/<number:pk>/file/", overview.export, name="job-file"),
    path("jobs/<number:pk>/openings/", openings.grid, name="openings"),
    path("jobs/<number:pk>/openings/bring-in/", openings.bring_in, name="bring-in"),
    path("jobs/<number:pk>/make-or-buy/", money.show, name="make-or-buy"),
    path("jobs/<number:pk>/make-or-buy/choose/", money.choose, name="make-or-buy-choose"),
    path("jobs/<number:pk>/price/", price.show, name="price"),
    path("jobs/<number:pk>/price/put/", price.put, name="price-put"),
    path("jobs/<number:pk>/price/given/", price.given, name="price-given"),
    path("jobs/<number:pk>/price/paper/", price.paper, name="price-paper"),
    path("jobs/<number:pk>/work/", money.work, name="work"),
    path("jobs/<number:pk>/work/start/", money.start, name="work-start"),
    path("jobs/<number:pk>/work/stop/", money.stop, name="work-stop"),
    path("jobs/<number:pk>/orders/", papers.orders, name="orders"),
    path("jobs/<number:pk>/dates/", dates.show, name="dates"),
    path("jobs/<number:pk>/dates/work/", dates.work, name="dates-work"),
    path("jobs/<number:pk>/dates/start/", dates.start, name="dates-start"),
    path("jobs/<number:pk>/dates/stop/", dates.stop, name="dates-stop"),
    path("jobs/<number:pk>/dates/file/", dates.file, name="dates-file"),
    path("jobs/<number:pk>/dates/days/", dates.put_days, name="dates-days"),
    path("jobs/<number:pk>/dates/tasks/", dates.put_tasks, name="dates-tasks"),
    path("jobs/<number:pk>/dates/order/", dates.put_order, name="dates-order"),
    path("jobs/<number:pk>/dates/done/", dates.put_done, name="dates-done"),
    path("jobs/<number:pk>/dates/firm/", dates.put_firm, name="dates-firm"),
    path("dates/", dates.show, name="all-dates"),
    path("dates/work/", dates.work, name="all-dates-work"),
    path("dates/start/", dates.start, name="all-dates-start"),
    path("dates/stop/", dates.stop, name="all-dates-stop"),
    path("dates/file/", dates.file, name="all-dates-file"),
    path("dates/firm/", dates.put_firm, name="all-dates-firm"),
    path("jobs/<number:pk>/quotes/", quotes.show, name="quotes"),
    path("jobs/<number:pk>/quotes/paper/", quotes.paper, name="quotes-paper"),
    path("jobs/<number:pk>/quotes/add/", quotes.add, name="quote-add"),
    path("jobs/<number:pk>/quotes/bring-in/", quotes.bring_in, name="quote-bring-in"),
    path("jobs/<number:pk>/quotes/<number:number>/out/", quotes.strike_out, name="quote-out"),
    path("jobs/<number:pk>/papers/", papers.papers, name="papers"),
    path("jobs/<number:pk>/papers/pack/", papers.pack, name="papers-pack"),
    path("jobs/<number:pk>/papers/<str:name>/", papers.file, name="paper"),
    path("jobs/<number:pk>/re-price/", re_price.show, name="re-price"),
    path("jobs/<number:pk>/re-price/paper/", re_price.paper, name="re-price-paper"),
    path("jobs/<number:pk>/change/", change.show, name="change"),
    path("jobs/<number:pk>/change/paper/", change.paper, name="change-paper"),
    path("jobs/<number:pk>/hours/", hours.show, name="hours"),
    path("jobs/<number:pk>/hours/<str:mark>/sure/", hours.sure, name="hours-sure"),
    path("jobs/<number:pk>/actuals/<str:mark>/out/", hours.out, name="actual-out"),
    path("jobs/<number:pk>/account/", account.show, name="account"),
    path("jobs/<number:pk>/account/invoice/", account.invoice, name="account-invoice"),
    path("jobs/<number:pk>/account/paper/", account.paper, name="account-paper"),
    path("jobs/<number:pk>/account/<number:number>/undo/", account.undo, name="account-undo"),
    path("jobs/<number:pk>/measure/", measuring.overview, name="measure-list"),
    path("jobs/<number:pk>/measure-begin/", measuring.begin, name="measure-begin"),
    path("jobs/<number:pk>/measure/<path:mark>/", measuring.one, name="measure"),
    path("jobs/<number:pk>/measure-about/<path:mark>/", measuring.about, name="measure-about"),
    path("jobs/<number:pk>/shape/", shape.first, name="shapes"),
    path("jobs/<number:pk>/shape/<path:mark>/", shape.show, name="shape"),
    path("jobs/<number:pk>/reading-in/<path:mark>/", offline.reading_in, name="reading-in"),
    path("jobs/<number:pk>/along/", offline.along, name="along"),
    path("jobs/<number:pk>/photo-add/<path:mark>/", photos.add, name="photo-add"),
    path("jobs/<number:pk>/photo-out/<path:mark>/", photos.out, name="photo-out"),
    path("jobs/<number:pk>/measure-out/<path:mark>/", openings.draft_out, name="draft-out"),
    path("jobs/<number:pk>/photos/<str:sha256>/", photos.show, name="photo"),
    path("jobs/<number:pk>/sizes/", sizes.show, name="sizes"),
    path("jobs/<number:pk>/sizes/trade-off/", sizes.trade_off, name="sizes-trade-off"),
    path("jobs/<number:pk>/sizes/choose/", sizes.choose, name="sizes-choose"),
    path("jobs/<number:pk>/sizes/frame-ahead/", sizes.frame_ahead, name="sizes-frame-ahead"),
    path("jobs/<number:pk>/leaves/", leaves.show, name="leaves"),
    path("jobs/<number:pk>/leaves/<path:mark>/", leaves.one, name="leaves-of"),
    path("jobs/<number:pk>/parts/", parts.show, name="parts"),
    path("jobs/<number:pk>/parts/try/", parts.try_out, name="parts-try"),
    path("jobs/<number:pk>/parts/keep/", parts.keep, name="parts-keep"),
    path("jobs/<number:pk>/parts/part/<str:mark>/", parts.part, name="part"),
    path("jobs/<number:pk>/boards/", boards.show, name="boards"),
    path("jobs/<number:pk>/boards/wanted/", wanted.of_job, name="boards-wanted"),
    path("jobs/<number:pk>/boards/offcuts/", boards.offcuts, name="boards-offcuts"),
    path("jobs/<number:pk>/boards/taken/", boards.taken, name="boards-taken"),
    path("jobs/<number:pk>/boards/<number:number>/", boards.sheet, name="board-sheet"),
    path("documents/<number:pk>/go-on/", damaged.go_on, name="go-on"),
    path("jobs/<number:pk>/history/", history.show, name="history"),
    path("jobs/<number:pk>/history/compare/", history.compare, name="history-compare"),
    path("jobs/<number:pk>/history/<number:number>/undo/", history.undo, name="history-undo"),
    path("book/", book.firm, name="book"),
    path("book/rates/", book.rates, name="book-rates"),
    path("book/rates/put/", book.rate, name="book-rate"),
    path("book/rates/learned/", learned.show, name="book-learned"),
    path("book/rates/learned/take/", learned.take, name="book-learned-take"),
    path("book/boards/", book.boards, name="book-boards"),
    path("book/boards/price-list/", price_list.bring_in, name="book-price-list"),
    path("book/boards/price-list/<str:name>.<str:kind>", price_list.blank, name="book-blank-list"),
    path("book/prices/", prices.show, name="book-prices"),
    path("book/prices/start/", prices.start, name="book-prices-start"),
    path("book/prices/paper/", prices.paper, name="book-prices-paper"),
    path("book/boards/price/", book.price, name="book-price"),
    path("book/boards/offcut/", book.offcut, name="book-offcut"),
    path("book/boards/offcut/out/", book.offcut_out, name="book-offcut-out"),
    path("book/not-confirmed/", confirming.show, name="book-confirm"),
    path("book/not-confirmed/put/", confirming.put, name="book-confirm-put"),
    path("book/wanted/", wanted.show, name="book-wanted"),
    path("book/wanted/put/", wanted.put, name="book-wanted-put"),
    path("book/wanted/out/", wanted.out, name="book-wanted-out"),
    path("book/workshops/", book.workshops, name="book-workshops"),
    path("book/workshops/new/", book_entries.new_workshop, name="book-workshop-new"),
    path("book/workshops/<number:number>/", book.workshop, name="book-workshop"),
    path("book/workshops/<number:number>/rates/", book.workshop_rates, name="book-workshop-rates"),
    path("book/build-ups/", book.build_ups, name="book-build-ups"),
    path("book/build-ups/<number:number>/", book.build_up, name="book-build-up"),
    path("book/hinges/", book_entries.hinges, name="book-hinges"),
    path("book/hinges/counts/", book_entries.counts, name="book-hinge-counts"),
    path("book/history/", book.history, name="book-history"),
    path("book/history/<number:number>/undo/", book.undo, name="book-undo"),
    path("book/<str:kind>/new/", book_entries.new, name="book-entry-new"),
    path("book/<str:kind>/<number:number>/", book_entries.entry, name="book-entry"),
    path("book/<str:kind>/<number:number>/out/", book_entries.out, name="book-entry-out"),
    path("book/<str:kind>/<number:number>/size/", book_entries.size, name="book-size"),
    path("book/<str:kind>/<number:number>/size/out/", book_entries.size_out, name="book-size-out"),
    path("weeks/", weeks.show, name="weeks"),
    path("weeks/paper/", weeks.paper, name="weeks-paper"),
    path("weeks/put/", weeks.put, name="weeks-put"),
    path("weeks/start/", weeks.start, name="weeks-start"),
    path("backups/", backups.show, name="backups"),
    path("backups/make/", backups.make, name="backup-make"),
    path("backups/schedule/", backups.schedule, name="backup-schedule"),
    path("people/", people.index, name="people"),
    path("people/add/", people.add, name="people-add"),
    path("people/<number:pk>/role/", people.role, name="people-role"),
    path("people/<number:pk>/active/", people.active, name="people-active"),
    path("people/<number:pk>/password/", people.new_password, name="people-password"),
    path("people/<number:pk>/second-off/", people.second_off, name="people-second-off"),
    path("password/", people.own_password, name="own-password"),
    path("password/second/", second.own, name="own-second"),
    path("deeds/", deeds.show, name="deeds"),
]
