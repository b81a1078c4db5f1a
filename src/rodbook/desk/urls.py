"""The desk's site map."""

from django.contrib.auth.views import LoginView, LogoutView
from django.urls import path

from rodbook.desk.views import (
    boards,
    entrance,
    history,
    jobs,
    measuring,
    money,
    openings,
    overview,
    papers,
    parts,
    photos,
)

__all__ = ["urlpatterns"]

urlpatterns = [
    path("", jobs.index, name="jobs"),
    path("enter/<str:key>/", entrance.enter, name="enter"),
    path("health", entrance.health, name="health"),
    path("login/", LoginView.as_view(template_name="desk/login.html"), name="login"),
    path("logout/", LogoutView.as_view(), name="logout"),
    path("documents/<int:pk>/settle/", history.settle, name="settle"),
    path("jobs/new/", jobs.new, name="job-new"),
    path("jobs/sample/", jobs.from_sample, name="job-sample"),
    path("jobs/<int:pk>/", overview.show, name="job"),
    path("jobs/<int:pk>/header/", overview.header, name="job-header"),
    path("jobs/<int:pk>/put-away/", jobs.put_away, name="job-put-away"),
    path("jobs/<int:pk>/file/", overview.export, name="job-file"),
    path("jobs/<int:pk>/openings/", openings.grid, name="openings"),
    path("jobs/<int:pk>/openings/bring-in/", openings.bring_in, name="bring-in"),
    path("jobs/<int:pk>/make-or-buy/", money.show, name="make-or-buy"),
    path("jobs/<int:pk>/make-or-buy/choose/", money.choose, name="make-or-buy-choose"),
    path("jobs/<int:pk>/work/", money.work, name="work"),
    path("jobs/<int:pk>/work/start/", money.start, name="work-start"),
    path("jobs/<int:pk>/work/stop/", money.stop, name="work-stop"),
    path("jobs/<int:pk>/orders/", papers.orders, name="orders"),
    path("jobs/<int:pk>/papers/", papers.papers, name="papers"),
    path("jobs/<int:pk>/papers/pack/", papers.pack, name="papers-pack"),
    path("jobs/<int:pk>/papers/<str:name>/", papers.file, name="paper"),
    path("jobs/<int:pk>/measure/", measuring.overview, name="measure-list"),
    path("jobs/<int:pk>/measure-begin/", measuring.begin, name="measure-begin"),
    path("jobs/<int:pk>/measure/<path:mark>/", measuring.one, name="measure"),
    path("jobs/<int:pk>/measure-about/<path:mark>/", measuring.about, name="measure-about"),
    path("jobs/<int:pk>/photo-add/<path:mark>/", photos.add, name="photo-add"),
    path("jobs/<int:pk>/photos/<str:sha256>/", photos.show, name="photo"),
    path("jobs/<int:pk>/parts/", parts.show, name="parts"),
    path("jobs/<int:pk>/boards/", boards.show, name="boards"),
    path("jobs/<int:pk>/boards/<int:number>/", boards.sheet, name="board-sheet"),
    path("jobs/<int:pk>/history/", history.show, name="history"),
    path("jobs/<int:pk>/history/compare/", history.compare, name="history-compare"),
    path("jobs/<int:pk>/history/<int:number>/undo/", history.undo, name="history-undo"),
]
