"""The command line: the edge that reads files, prints and sets exit codes."""

from rodbook.cli.account import account
from rodbook.cli.backup import backup, backup_schedule, desk_check, restore
from rodbook.cli.basket import basket_command
from rodbook.cli.change import change
from rodbook.cli.commands import main, rodbook
from rodbook.cli.confirming import confirm_command
from rodbook.cli.dates import dates
from rodbook.cli.people import desk_person, desk_second_off
from rodbook.cli.price_lists import price_list_command
from rodbook.cli.quotes import quotes_command
from rodbook.cli.re_price import re_price
from rodbook.cli.weeks import weeks_command

rodbook.add_command(account)
rodbook.add_command(backup)
rodbook.add_command(backup_schedule)
rodbook.add_command(restore)
rodbook.add_command(desk_check)
rodbook.add_command(desk_person)
rodbook.add_command(desk_second_off)
rodbook.add_command(change)
rodbook.add_command(confirm_command)
rodbook.add_command(basket_command)
rodbook.add_command(dates)
rodbook.add_command(price_list_command)
rodbook.add_command(quotes_command)
rodbook.add_command(re_price)
rodbook.add_command(weeks_command)

__all__ = ["main"]
