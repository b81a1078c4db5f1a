"""The desk's site map."""

from django.contrib.auth.views import LoginView, LogoutView
from django.urls import path

from rodbook.desk.views import entrance, history, jobs, openings, overview

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
    path("jobs/<int:pk>/history/", history.show, name="history"),
    path("jobs/<int:pk>/history/compare/", history.compare, name="history-compare"),
    path("jobs/<int:pk>/history/<int:number>/undo/", history.undo, name="history-undo"),
]
